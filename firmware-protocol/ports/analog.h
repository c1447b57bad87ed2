/*
 * The analog side of a port whose hardware is simulated elsewhere: lines of text over any stream of
 * bytes, described in README.md. One physics serves every port.
 */
#ifndef ANALOG_H
#define ANALOG_H

#include "../core/fx.h"

struct analog {
  /* Puts bytes on the channel, all of them. */
  void (*put)(void *ctx, const char *text, uint16_t n);
  void *ctx;
  uint8_t inputs; /* last told, bits of enum fx_input */
  uint8_t health; /* last told, enum fx_fault */
  uint8_t seeded; /* the simulator gave a number that differs from start to start */
  uint32_t seed;
  uint16_t tag;   /* of the last reading asked for */
  uint16_t asked[FX_READERS];
  uint8_t there[FX_READERS];
  struct fx_point point[FX_READERS];
  char line[48];
  uint8_t n;
};

void analog_begin(struct analog *analog, void (*put)(void *ctx, const char *text, uint16_t n),
                  void *ctx);
/* A byte from the simulator; lines that are not understood are passed over. */
void analog_take(struct analog *analog, char byte);

/* 1: a reading was asked for that has not come. */
int analog_is_waiting(const struct analog *analog);

/* Asks for that number. */
void analog_seed_ask(struct analog *analog);

/* As in struct fx_hal; ctx is a struct analog. */
void analog_all_open(void *ctx);
int analog_move(void *ctx, uint8_t bus, uint16_t channel, uint8_t closed);
int analog_latch(void *ctx);
int analog_range(void *ctx, uint8_t reader, uint8_t kind);
void analog_drive(void *ctx, uint8_t reader, const struct fx_drive *drive);
void analog_start(void *ctx, uint8_t reader, uint32_t window_us);
int analog_read(void *ctx, uint8_t reader, struct fx_point *point);

#endif
