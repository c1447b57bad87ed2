/* What main.c needs of a board; for another one, write these. */
#ifndef BOARD_H
#define BOARD_H

#include <stdint.h>

void board_begin(void);              /* clock, UARTs, timer, watchdog; interrupts stay off */
uint32_t board_now(void);            /* microseconds, modulo 2^32, never back */
int board_line_put(uint8_t byte);    /* 0: no room yet */
void board_analog_put(uint8_t byte); /* to the simulator; there is always room soon */
void board_sleep(void);              /* until an interrupt; called with interrupts off */
void board_kick(void);
void board_safe(void);               /* everything open, from any context, a trapped fault too */

/* Called by the board from the interrupts of the line and of the simulator. */
void main_line_took(uint8_t byte);
void main_analog_took(uint8_t byte);

#define BOARD_CAUSE_TRAP 5u
extern volatile uint32_t board_trapped; /* kept over a reset: BOARD_CAUSE_TRAP after a trap */

#endif
