/* The core on a microcontroller; what it measures comes over a second UART from a host simulator
   (../analog.h). For a board of one's own, replace the analog_ calls of the table below. */
#include "../../core/fx_core.h"
#include "../analog.h"
#include "board.h"

#ifndef OPERATE_NS
#define OPERATE_NS 0
#endif

static struct fx_core core;
static struct analog analog;

/* Starts since power: the boot id of a board without a source of noise (M24). */
static uint32_t starts __attribute__((section(".noinit")));

/* From the simulator, 256 bytes round: an answer has less than 50 and is asked for one by one. */
static uint8_t analog_ring[256];
static volatile uint8_t analog_head;
static volatile uint8_t analog_tail;

void main_analog_took(uint8_t byte) { 
  analog_ring[analog_head] = byte;
  analog_head = (uint8_t)(analog_head + 1);
 }

void main_line_took(uint8_t byte) { fx_receive(&core, byte); }

static void put(void *ctx, const char *text, uint16_t n) {
  uint16_t i;
  (void)ctx;
  for (i = 0; i < n; i++) {
    board_analog_put((uint8_t)text[i]);
  }
}

static uint32_t now(void *ctx) {
  (void)ctx;
  return board_now();
}

static uint16_t send(void *ctx, const uint8_t *bytes, uint16_t n) {
  uint16_t i;
  (void)ctx;
  for (i = 0; i < n && board_line_put(bytes[i]); i++) {
  }
  return i;
}

static uint8_t inputs(void *ctx) { return ((struct analog *)ctx)->inputs; }

static uint8_t health(void *ctx) { return ((struct analog *)ctx)->health; }

static void kick(void *ctx) {
  (void)ctx;
  board_kick();
}

#define RANGE(kind, current, volt) {kind, current, volt, 100000, 1000, 1000, 1000, 20000, 0}

static const struct fx_range ranges[] = {
    RANGE(FX_ALL_OPEN, 1000000, 500000000),
    RANGE(FX_RESIDUAL, 1000000, 500000000),
    RANGE(FX_RESIDUAL_LOADED, 1000000, 500000000),
    RANGE(FX_DISCHARGE, 1000000, 500000000),
    RANGE(FX_LOW_LEVEL, 1000000000, 500000000),
    RANGE(FX_NORMAL_LEVEL, 1000000000, 500000000),
    RANGE(FX_ISOLATION, 1000000, 500000000),
    RANGE(FX_JUNCTION, 10000000, 500000000),
    RANGE(FX_CHARGE, 1000000, 500000000),
};

static struct fx_config config = {
    .identity = "emulated fixture",
    .build_text = "jointwalk reference firmware, Cortex-M",
    .calibration = "none",
    .build = 2,
    .channels = FX_CHANNELS,
    .steps = FX_STEPS,
    .settings = FX_SETTINGS,
    .sets = FX_SETS,
    .points = FX_POINTS,
    .clamp = 600000000,
    .switching = 2,
    .kelvin = 1,
    .banks = 1,
    .readers = 1,
    .most_high = FX_CHANNELS,
    .most_low = FX_CHANNELS,
    .ranges = ranges,
    .range_count = sizeof ranges / sizeof ranges[0],
    .operate_ns = OPERATE_NS,
    .release_ns = OPERATE_NS,
    .has_lid = 1,
    .debounce_us = 20000,
    .check_volt = 5000000,
    .check_amp = 10000000,
    .convert_us = 100000,
};

static const struct fx_hal hal = {
    .ctx = &analog,
    .now = now,
    .send = send,
    .all_open = analog_all_open,
    .move = analog_move,
    .latch = analog_latch,
    .range = analog_range,
    .drive = analog_drive,
    .start = analog_start,
    .read = analog_read,
    .inputs = inputs,
    .health = health,
    .kick = kick,
};

static void take_analog(void) {
  for (; analog_tail != analog_head; analog_tail = (uint8_t)(analog_tail + 1)) {
    analog_take(&analog, (char)analog_ring[analog_tail]);
  }
}

/* Asks the simulator for a number that differs from start to start, and does without after 200 ms:
   then the count of starts has to do, which a power cycle may repeat. */
static uint64_t boot_id(void) {
  uint32_t begun;
  starts = starts * 1664525u + 1013904223u; /* a spread, so that two neighbours differ in many bits */
  analog_seed_ask(&analog);
  for (begun = board_now(); !analog.seeded && board_now() - begun < 200000u;) {
    take_analog();
    board_kick();
  }
  return ((uint64_t)analog.seed << 32 ^ starts) >> 1;
}

int main(void) {
  board_begin();
  analog_begin(&analog, put, 0);
  analog_all_open(&analog);
  __asm volatile("cpsie i" ::: "memory");
  config.boot = boot_id();
  config.reset_cause = board_trapped == BOARD_CAUSE_TRAP ? BOARD_CAUSE_TRAP : 1;
  board_trapped = 0;
  if (fx_init(&core, &config, &hal) != 0) {
    return 1;
  }
  for (;;) {
    take_analog();
    fx_poll(&core);
    /* Sleeps for a millisecond at most, until its timer ticks. Interrupts are off between the look and the sleep, or a byte could come in between and be
       slept over. */
    __asm volatile("cpsid i" ::: "memory");
    if (analog_head == analog_tail && (fx_is_idle(&core) || analog_is_waiting(&analog))) {
      board_sleep();
    }
    __asm volatile("cpsie i" ::: "memory");
  }
}
