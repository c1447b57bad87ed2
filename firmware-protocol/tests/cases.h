/* What the unit tests share: one fake fixture, begun anew by each case, and the ways to begin. */
#ifndef CASES_H
#define CASES_H

#include "check.h"
#include "fake.h"

extern struct fake fake;

void started(void);
void declared(uint8_t class_of);
void running(uint32_t first, uint32_t count, uint32_t credit);
void resistor(uint16_t a, uint16_t b, double ohm);
/* The next frame of a type, after some time in which the host says that it is alive. */
const struct fake_frame *after(uint32_t us, uint8_t type);

void line_cases(void);
void step_cases(void);
void safety_cases(void);

#endif
