/*
 * A fixture with the core in a time that it is told, so that a minute of its life takes a moment
 * and the same words always have the same answers. It measures between channels that touch
 * nothing. Commands on standard input, each one letter and a little-endian u32:
 *
 *   W n   n bytes follow, which the host puts on the line
 *   R t   at most t microseconds pass, until bytes have come for the host
 *   P t   t microseconds pass, and the host does not look
 *   L t   the lid opens (1) or closes (0)
 *
 * R is answered by the time that is now, the number of bytes, both u32, and the bytes; P by the
 * time.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../core/fx_core.h"
#define FIGURES_TIME 100
#include "../ports/figures.h"
#include "../ports/table.h"

#define TICK_US 50u
#define IDLE_TICK_US 500u
#define LINE_MOST 4096u /* bytes that the line holds for a host that does not look */

static struct {
  struct fx_core core;
  struct fx_config config;
  struct fx_hal hal;
  struct table table;
  uint32_t now;
  uint8_t lid;
  uint8_t line[LINE_MOST];
  size_t line_n;
} told;

static uint32_t now(void *ctx) {
  (void)ctx;
  return told.now;
}

static uint16_t send_bytes(void *ctx, const uint8_t *bytes, uint16_t n) {
  size_t room = LINE_MOST - told.line_n;
  uint16_t some = n < room ? n : (uint16_t)room;
  (void)ctx;
  memcpy(told.line + told.line_n, bytes, some);
  told.line_n += some;
  return some;
}

static void all_open(void *ctx) { table_all_open(ctx); }

static int move(void *ctx, uint8_t bus, uint16_t channel, uint8_t closed) {
  table_move(ctx, bus, channel, closed);
  return 0;
}

static int latch(void *ctx) {
  (void)ctx;
  return 0;
}

static int choose(void *ctx, uint8_t reader, uint8_t kind) {
  (void)ctx;
  (void)reader;
  (void)kind;
  return 0;
}

static void drive(void *ctx, uint8_t reader, const struct fx_drive *d) {
  ((struct table *)ctx)->drive[reader] = *d;
}

static void start(void *ctx, uint8_t reader, uint32_t window_us) {
  (void)ctx;
  (void)reader;
  (void)window_us;
}

static int read_point(void *ctx, uint8_t reader, struct fx_point *point) {
  *point = table_read(ctx, reader);
  return 1;
}

static uint8_t inputs(void *ctx) {
  (void)ctx;
  return told.lid ? FX_IN_LID_OPEN : 0;
}

static uint8_t health(void *ctx) {
  (void)ctx;
  return 0;
}

static void kick(void *ctx) { (void)ctx; }

static void configure(void) {
  struct fx_config *c = &told.config;
  c->identity = "fixture in told time";
  c->build_text = "jointwalk reference firmware, told time";
  c->calibration = "none";
  c->build = 1;
  c->boot = 4711;
  c->reset_cause = 1;
  c->channels = 64;
  c->steps = 256;
  c->settings = FX_SETTINGS;
  c->sets = FX_SETS;
  c->points = FX_POINTS;
  c->clamp = 600000000;
  c->power_mw = FIGURES_POWER_MW;
  c->switching = 2;
  c->kelvin = 1;
  c->banks = 1;
  c->readers = 1;
  c->most_high = FX_CHANNELS;
  c->most_low = FX_CHANNELS;
  c->ranges = ranges;
  c->range_count = FX_KINDS;
  c->has_lid = 1;
  c->debounce_us = 20000;
  c->check_volt = 5000000;
  c->check_amp = 10000000;
  c->convert_us = 100000;
  told.hal.ctx = &told.table;
  told.hal.now = now;
  told.hal.send = send_bytes;
  told.hal.all_open = all_open;
  told.hal.move = move;
  told.hal.latch = latch;
  told.hal.range = choose;
  told.hal.drive = drive;
  told.hal.start = start;
  told.hal.read = read_point;
  told.hal.inputs = inputs;
  told.hal.health = health;
  told.hal.kick = kick;
}

static void each_range(const char *name, int32_t value) {
  int i;
  for (i = 0; i < FX_KINDS; i++) {
    if (strcmp(name, "--time") == 0) {
      ranges[i].time_us = (uint32_t)value;
    } else if (strcmp(name, "--settle") == 0) {
      ranges[i].settle_us = (uint32_t)value;
    } else if (ranges[i].compliance > value) {
      ranges[i].compliance = value;
    }
  }
}

/* Kinds from 0 on of which there are ranges; and the largest current at isolation. */
static int is_range_option(const char *name, int32_t value) {
  if (strcmp(name, "--time") == 0 || strcmp(name, "--settle") == 0 ||
      strcmp(name, "--compliance") == 0) {
    each_range(name, value);
  } else if (strcmp(name, "--isolation-current") == 0) {
    ranges[FX_ISOLATION].current = value;
  } else if (strcmp(name, "--kinds") == 0) {
    told.config.range_count = (uint8_t)value;
  } else {
    return 0;
  }
  return 1;
}

static void option(const char *name, const char *text) {
  struct fx_config *c = &told.config;
  int32_t value = (int32_t)strtol(text, NULL, 10);
  if (is_range_option(name, value)) {
    return;
  }
  if (strcmp(name, "--channels") == 0) {
    c->channels = (uint16_t)value;
  } else if (strcmp(name, "--points") == 0) {
    c->points = (uint8_t)value;
  } else if (strcmp(name, "--sets") == 0) {
    c->sets = (uint8_t)value;
  } else if (strcmp(name, "--steps") == 0) {
    c->steps = (uint16_t)value;
  } else if (strcmp(name, "--switching") == 0) {
    c->switching = (uint8_t)value;
  } else if (strcmp(name, "--readers") == 0) {
    c->readers = (uint16_t)value;
    c->banks = (uint16_t)value;
  } else if (strcmp(name, "--operate") == 0) {
    c->operate_ns = (uint32_t)value;
  } else if (strcmp(name, "--release") == 0) {
    c->release_ns = (uint32_t)value;
  } else {
    fprintf(stderr, "told: no option %s\n", name);
    exit(2);
  }
}

static uint32_t u32_in(void) {
  uint8_t bytes[4];
  if (fread(bytes, 1, 4, stdin) != 4) {
    exit(0);
  }
  return fx_get32(bytes);
}

static void u32_out(uint32_t value) {
  uint8_t bytes[4];
  struct fx_out out;
  fx_out_begin(&out, bytes, 4);
  fx_put32(&out, value);
  fwrite(bytes, 1, 4, stdout);
}

/* Lets time pass; with `looking` no longer than until there are bytes. */
static void pass(uint32_t micros, int looking) {
  uint32_t until = told.now + micros;
  fx_poll(&told.core);
  while (told.now != until && !(looking && told.line_n > 0)) {
    uint32_t left = until - told.now;
    uint32_t tick = fx_is_idle(&told.core) ? IDLE_TICK_US : TICK_US;
    told.now += left < tick ? left : tick;
    fx_poll(&told.core);
  }
}

static void take(uint32_t n) {
  while (n-- > 0) {
    int byte = getchar();
    if (byte == EOF) {
      exit(0);
    }
    while (fx_room(&told.core) == 0) {
      uint16_t before = told.core.tail;
      fx_poll(&told.core);
      if (told.core.tail == before) {
        told.now += TICK_US; /* it waits for something; the line holds back meanwhile */
      }
    }
    fx_receive(&told.core, (uint8_t)byte);
  }
  fx_poll(&told.core);
}

int main(int argc, char **argv) {
  int command;
  int i;
  configure();
  for (i = 1; i + 1 < argc; i += 2) {
    option(argv[i], argv[i + 1]);
  }
  if (fx_init(&told.core, &told.config, &told.hal) != 0) {
    return 2;
  }
  while ((command = getchar()) != EOF) {
    uint32_t value = u32_in();
    if (command == 'W') {
      take(value);
    } else if (command == 'L') {
      told.lid = (uint8_t)(value != 0);
    } else {
      pass(value, command == 'R');
      u32_out(told.now);
      if (command == 'R') {
        u32_out((uint32_t)told.line_n);
        fwrite(told.line, 1, told.line_n, stdout);
        told.line_n = 0;
      }
      fflush(stdout);
    }
  }
  return 0;
}
