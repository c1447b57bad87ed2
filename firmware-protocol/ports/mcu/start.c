/* Vectors and the way from reset to main, for a Cortex-M0 or M3. */
#include <stdint.h>
#include <string.h>

#include "board.h"

extern uint32_t stack_top;
extern uint8_t data_from;
extern uint8_t data_begin;
extern uint8_t data_end;
extern uint8_t bss_begin;
extern uint8_t bss_end;

int main(void);
void reset(void);
void trap(void);
void board_tick(void);
void board_line_interrupt(void);
void board_analog_interrupt(void);

volatile uint32_t board_trapped __attribute__((section(".noinit")));

void reset(void) {
  memcpy(&data_begin, &data_from, (uintptr_t)&data_end - (uintptr_t)&data_begin);
  memset(&bss_begin, 0, (uintptr_t)&bss_end - (uintptr_t)&bss_begin);
  main();
  trap();
}

/* Anything unexpected: everything open at once, then a reset (M83). */
void trap(void) {
  board_safe();
  board_trapped = BOARD_CAUSE_TRAP;
  *(volatile uint32_t *)0xE000ED0Cu = 0x05FA0004u; /* AIRCR: SYSRESETREQ */
  for (;;) {
  }
}

typedef void (*vector)(void);

static const vector vectors[] __attribute__((section(".vectors"), used)) = {
    (vector)(uintptr_t)&stack_top,
    reset,
    trap, /* NMI: the watchdog's first stage */
    trap, /* hard fault */
    trap, /* memory management */
    trap, /* bus */
    trap, /* usage */
    0,
    0,
    0,
    0,
    trap, /* SVCall */
    trap, /* debug */
    0,
    trap, /* PendSV */
    board_tick,
    board_line_interrupt, /* UART0 receives */
    trap,
    board_analog_interrupt, /* UART1 receives; no other interrupt is enabled */
};
