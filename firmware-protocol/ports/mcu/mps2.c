/*
 * Arm's MPS2 board with the AN385 image, as QEMU has it: 25 MHz, plain UARTs with one byte of room,
 * a watchdog that resets. Registers from the Cortex-M System Design Kit's manual (values from
 * memory, tried under QEMU 7.2).
 */
#include "board.h"

#define REG(address) (*(volatile uint32_t *)(address))

#define LINE 0x40004000u   /* UART0 */
#define ANALOG 0x40005000u /* UART1 */
#define DATA 0x00u
#define STATE 0x04u /* bit 0: no room to send; bit 1: a byte came */
#define CTRL 0x08u  /* bit 0 send, 1 receive, 3 interrupt when a byte came */
#define INTERRUPT 0x0Cu
#define DIVIDER 0x10u

#define WATCHDOG 0x40008000u
#define MHZ 25u
#define TICKS (1000u * MHZ)

#define SYST_CTRL REG(0xE000E010u)
#define SYST_LOAD REG(0xE000E014u)
#define SYST_VALUE REG(0xE000E018u)
#define ICSR REG(0xE000ED04u)
#define PENDSTSET (1u << 26)
#define ISER REG(0xE000E100u)

void board_tick(void);
void board_line_interrupt(void);
void board_analog_interrupt(void);

static volatile uint32_t millis;

void board_tick(void) { millis = millis + 1; }

static void drain(uint32_t uart, void (*took)(uint8_t byte)) {
  REG(uart + INTERRUPT) = 2u;
  while ((REG(uart + STATE) & 2u) != 0) {
    took((uint8_t)REG(uart + DATA));
  }
}

void board_line_interrupt(void) { drain(LINE, main_line_took); }

void board_analog_interrupt(void) { drain(ANALOG, main_analog_took); }

void board_begin(void) {
  REG(LINE + DIVIDER) = TICKS * 1000u / 115200u;
  REG(LINE + CTRL) = 1u | 2u | 8u;
  REG(ANALOG + DIVIDER) = 16u;
  REG(ANALOG + CTRL) = 1u | 2u | 8u;
  SYST_LOAD = TICKS - 1u;
  SYST_VALUE = 0;
  SYST_CTRL = 7u;
  ISER = 1u | 4u;
#ifdef WITH_WATCHDOG
  REG(WATCHDOG + 0xC00u) = 0x1ACCE551u;
  REG(WATCHDOG) = TICKS * 500u; /* half a second, and again as long until the reset */
  REG(WATCHDOG + 8u) = 3u;
#endif
}

/* The tick's interrupt may be pending while its counter has begun anew: without a look at that the
   clock would go back a millisecond now and then. */
uint32_t board_now(void) {
  uint32_t before;
  uint32_t value;
  uint32_t is_pending;
  do {
    before = millis;
    value = SYST_VALUE;
    is_pending = ICSR & PENDSTSET;
    if (is_pending != 0) {
      value = SYST_VALUE; /* of the new round */
    }
  } while (before != millis);
  return (before + (is_pending != 0 ? 1u : 0u)) * 1000u + (TICKS - 1u - value) / MHZ;
}

int board_line_put(uint8_t byte) {
  if ((REG(LINE + STATE) & 1u) != 0) {
    return 0;
  }
  REG(LINE + DATA) = byte;
  return 1;
}

/* Stands for a converter's bus, which takes a byte at once: the emulated UART is never full long. */
void board_analog_put(uint8_t byte) {
  while ((REG(ANALOG + STATE) & 1u) != 0) {
  }
  REG(ANALOG + DATA) = byte;
}

void board_sleep(void) { __asm volatile("wfi"); }

/* WITHOUT_KICK makes the image that shows that the watchdog bites. */
void board_kick(void) {
#if defined(WITH_WATCHDOG) && !defined(WITHOUT_KICK)
  REG(WATCHDOG + 0x0Cu) = 1u;
#endif
}

void board_safe(void) {
  board_analog_put('O');
  board_analog_put('\n');
}
