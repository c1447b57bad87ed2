#include "fake.h"

#include <string.h>

int check_failed;
int check_passed;

static uint32_t now(void *ctx) {
  struct fake *f = ctx;
  f->now += f->tick;
  return f->now;
}

static uint16_t send(void *ctx, const uint8_t *bytes, uint16_t n) {
  struct fake *f = ctx;
  uint16_t i;
  if (f->blocked) {
    return 0;
  }
  n = f->gulp != 0 && n > f->gulp ? f->gulp : n;
  for (i = 0; i < n; i++) {
    enum fx_got got = fx_line_take(&f->line, bytes[i]);
    if (got == FX_GOT && f->count < FAKE_FRAMES) {
      struct fake_frame *frame = &f->frames[f->count++];
      frame->type = f->line.bytes[0];
      frame->session = fx_get16(f->line.bytes + 1);
      frame->number = fx_get16(f->line.bytes + 3);
      frame->n = (uint16_t)(f->line.n - FX_RAW_LEAST);
      memcpy(frame->payload, f->line.bytes + FX_HEAD, frame->n);
      fx_line_next(&f->line);
    } else if (got != FX_NOTHING) {
      f->bad++;
    }
  }
  return n;
}

static int is_on(const struct fake *f) {
  uint8_t i;
  for (i = 0; i < FX_READERS; i++) {
    if (f->table.drive[i].mode == FX_CURRENT || f->table.drive[i].mode == FX_VOLTAGE) {
      return 1;
    }
  }
  return 0;
}

static void note_on(struct fake *f, int was) {
  if (is_on(f) && !was) {
    f->on_since = f->now;
  }
  if (!is_on(f) && was && f->now - f->on_since > f->longest_on) {
    f->longest_on = f->now - f->on_since;
  }
}

static void all_open(void *ctx) {
  struct fake *f = ctx;
  int was = is_on(f);
  f->all_open++;
  table_all_open(&f->table);
  note_on(f, was);
}

static uint32_t closed(const struct fake *f) {
  uint32_t n = 0;
  uint32_t i;
  uint8_t bus;
  for (bus = 0; bus < FX_BUSES; bus++) {
    for (i = 0; i < FX_CHANNELS; i++) {
      n += f->table.closed[bus][i];
    }
  }
  return n;
}

static int move(void *ctx, uint8_t bus, uint16_t channel, uint8_t is_closed) {
  struct fake *f = ctx;
  f->moved_hot += (uint32_t)is_on(f);
  f->undeclared += (uint32_t)(is_closed && (channel >= f->config.channels ||
                                            fx_place(&f->core, channel) == 0));
  table_move(&f->table, bus, channel, is_closed);
  if (closed(f) > f->most_closed) {
    f->most_closed = closed(f);
  }
  return f->failure == FAKE_STUCK_RELAY;
}

static int latch(void *ctx) {
  (void)ctx;
  return 0;
}

static int range(void *ctx, uint8_t reader, uint8_t kind) {
  struct fake *f = ctx;
  (void)reader;
  (void)kind;
  f->moved_hot += (uint32_t)is_on(f);
  return 0;
}

static int is_signal_closed(const struct fake *f) {
  uint32_t channel;
  for (channel = 0; channel < f->config.channels; channel++) {
    uint8_t place = fx_place(&f->core, channel);
    uint8_t bus;
    for (bus = 0; bus < FX_BUSES; bus++) {
      if (f->table.closed[bus][channel] && place != 0 &&
          f->core.class_of[place - 1].kind == 3) {
        return 1;
      }
    }
  }
  return 0;
}

static void drive(void *ctx, uint8_t reader, const struct fx_drive *d) {
  struct fake *f = ctx;
  int was = is_on(f);
  f->table.drive[reader] = *d;
  f->overdriven += (uint32_t)(d->mode == FX_CURRENT &&
                              (d->level > 100000000 || d->level < -100000000) &&
                              is_signal_closed(f));
  note_on(f, was);
}

static void start(void *ctx, uint8_t reader, uint32_t window_us) {
  (void)ctx;
  (void)reader;
  (void)window_us;
}

static int read(void *ctx, uint8_t reader, struct fx_point *point) {
  struct fake *f = ctx;
  if (f->failure == FAKE_DEAD_ADC) {
    return 0;
  }
  if (f->failure == FAKE_BROKEN_ADC) {
    return -1;
  }
  f->table.bus_siemens = f->failure == FAKE_WELDED ? f->weld : 0;
  *point = table_read(&f->table, reader);
  if (f->table.drive[reader].level > 0) {
    point->volt += f->skew;
  }
  if (f->failure == FAKE_STUCK_AT_ZERO) {
    memset(point, 0, sizeof *point);
  }
  return 1;
}

static uint8_t inputs(void *ctx) { return ((struct fake *)ctx)->inputs; }

static uint8_t health(void *ctx) {
  return ((struct fake *)ctx)->failure == FAKE_HOT ? FX_FAULT_HOT : FX_FAULT_NONE;
}

static void kick(void *ctx) { ((struct fake *)ctx)->kicks++; }

static const struct fx_range ranges[] = {
    {FX_ALL_OPEN, 1000000, 500000000, 0, 0, 0, 0, 100, 50},
    {FX_RESIDUAL, 1, 500000000, 0, 0, 0, 0, 100, 50},
    {FX_RESIDUAL_LOADED, 1, 500000000, 0, 0, 0, 0, 100, 50},
    {FX_DISCHARGE, 1, 500000000, 0, 0, 0, 0, 100, 50},
    {FX_LOW_LEVEL, 1000000000, 500000000, 0, 0, 0, 0, 100, 50},
    {FX_NORMAL_LEVEL, 1000000000, 500000000, 0, 0, 0, 0, 100, 50},
    {FX_ISOLATION, 1000000, 500000000, 0, 0, 0, 0, 100, 50},
    {FX_JUNCTION, 10000000, 500000000, 0, 0, 0, 0, 100, 50},
    {FX_CHARGE, 1000000, 500000000, 0, 0, 0, 0, 1000, 50},
};

void fake_begin(struct fake *f) {
  static const struct fx_hal hal = {NULL, now,   send, all_open, move,   latch, range,
                                    drive, start, read, inputs,   health, kick};
  memset(f, 0, sizeof *f);
  f->hal = hal;
  f->step = 100;
  f->weld = 0.01;
  f->hal.ctx = f;
  f->config.identity = "bench 1";
  f->config.build_text = "test";
  f->config.calibration = "none";
  f->config.boot = 7;
  f->config.channels = 40;
  f->config.steps = 16;
  f->config.settings = 8;
  f->config.sets = 4;
  f->config.points = 24;
  f->config.clamp = 600000000;
  f->config.switching = 2;
  f->config.banks = 4;
  f->config.readers = FX_READERS;
  f->config.most_high = 40;
  f->config.most_low = 40;
  f->config.ranges = ranges;
  f->config.range_count = 9;
  f->config.operate_ns = 500000;
  f->config.release_ns = 300000;
  f->config.has_lid = 1;
  f->config.debounce_us = 20000;
  f->config.check_volt = 5000000;
  f->config.check_amp = 10000000;
  f->config.check_settle_us = 500;
  f->config.convert_us = 5000;
}

int fake_start(struct fake *f) { return fx_init(&f->core, &f->config, &f->hal); }

void fake_run(struct fake *f, uint32_t us) {
  uint32_t end = f->now + us;
  while ((int32_t)(end - f->now) > 0) {
    fx_poll(&f->core);
    f->now += f->step;
  }
}

void fake_send(struct fake *f, uint8_t type, uint16_t session, uint16_t number,
               const uint8_t *payload, uint16_t n) {
  uint8_t raw[FX_RAW];
  uint8_t wire[FX_WIRE];
  struct fx_out out;
  size_t size;
  size_t i;
  fx_out_begin(&out, raw, sizeof raw);
  fx_put8(&out, type);
  fx_put16(&out, session);
  fx_put16(&out, number);
  for (i = 0; i < n; i++) {
    fx_put8(&out, payload[i]);
  }
  fx_put32(&out, ~fx_crc(FX_CRC_START, raw, out.n));
  size = fx_cobs_encode(wire, raw, out.n);
  for (i = 0; i < size; i++) {
    fx_receive(&f->core, wire[i]);
  }
  fx_receive(&f->core, 0);
  fx_poll(&f->core);
}

const struct fake_frame *fake_next(struct fake *f, uint8_t type) {
  while (f->taken < f->count) {
    const struct fake_frame *frame = &f->frames[f->taken++];
    if (frame->type == type) {
      return frame;
    }
  }
  return NULL;
}

int fake_is_open(const struct fake *f) { return closed(f) == 0 && !is_on(f); }

const struct fake_frame *fake_ask(struct fake *f, uint8_t type, const uint8_t *payload,
                                  uint16_t n) {
  f->taken = f->count;
  fake_send(f, type, f->session, ++f->number, payload, n);
  while (f->taken < f->count) {
    const struct fake_frame *frame = &f->frames[f->taken++];
    if (frame->type < 0xC0) {
      return frame;
    }
  }
  return NULL;
}

const struct fake_frame *fake_hello(struct fake *f, uint32_t nonce, uint8_t flags,
                                    uint32_t replaces) {
  uint8_t payload[16];
  struct fx_out out;
  fx_out_begin(&out, payload, sizeof payload);
  fx_put32(&out, 0x7866776Au);
  fx_put8(&out, 1);
  fx_put8(&out, 1);
  fx_put8(&out, flags);
  fx_put8(&out, 0);
  fx_put32(&out, nonce);
  fx_put32(&out, replaces);
  f->session = (uint16_t)(nonce & 0xFFFFu);
  return fake_ask(f, FX_HELLO, payload, sizeof payload);
}

void fake_declare(struct fake *f, uint8_t class_of) {
  uint8_t payload[64];
  struct fx_out out;
  uint16_t i;
  fx_out_begin(&out, payload, sizeof payload);
  fx_put8(&out, class_of == 4 ? 4 : 2);
  fx_put8(&out, 1);
  fx_put8(&out, 'x');
  fx_put8(&out, 1);
  fx_put8(&out, class_of);
  fx_put8(&out, 0);
  fx_put32(&out, 0);
  fake_ask(f, FX_DECLARE, payload, out.n);
  fx_out_begin(&out, payload, sizeof payload);
  fx_put16(&out, 0);
  fx_put16(&out, f->config.channels);
  for (i = 0; i < (f->config.channels + 1) / 2; i++) {
    fx_put8(&out, 2 * i + 1 < f->config.channels ? 0x11 : 0x01);
  }
  fake_ask(f, FX_CHANNELS_MESSAGE, payload, out.n);
}

const struct fake_frame *fake_begin_run(struct fake *f, uint32_t id, uint32_t first,
                                        uint32_t count, uint32_t credit) {
  uint8_t payload[20];
  struct fx_out out;
  fx_out_begin(&out, payload, sizeof payload);
  fx_put32(&out, id);
  fx_put32(&out, first);
  fx_put32(&out, count);
  fx_put32(&out, credit);
  fx_put32(&out, fx_declaration(&f->core));
  f->stream = 0;
  return fake_ask(f, FX_RUN, payload, sizeof payload);
}

void fake_stream(struct fake *f, uint8_t type, const uint8_t *payload, uint16_t n) {
  fake_send(f, type, f->session, ++f->stream, payload, n);
}

void fake_setting(struct fake *f, uint8_t slot, const struct fx_setting *s) {
  uint8_t payload[64];
  struct fx_out out;
  uint8_t i;
  fx_out_begin(&out, payload, sizeof payload);
  fx_put32(&out, f->core.run.id);
  fx_put8(&out, slot);
  fx_put8(&out, s->kind);
  fx_put8(&out, s->brief);
  fx_put8(&out, s->samples);
  fx_put8(&out, s->most);
  fx_put32(&out, (uint32_t)s->voltage);
  fx_put8(&out, s->count);
  for (i = 0; i < 3; i++) {
    fx_put32(&out, (uint32_t)s->currents[i]);
  }
  fx_put32(&out, s->dwell);
  fx_put32(&out, s->limit);
  fx_put32(&out, s->below);
  fx_put32(&out, s->above);
  fake_stream(f, FX_SETTING, payload, out.n);
}

void fake_step(struct fake *f, uint32_t index, uint8_t setting, uint16_t high, uint16_t low) {
  uint8_t payload[16];
  struct fx_out out;
  fx_out_begin(&out, payload, sizeof payload);
  fx_put32(&out, f->core.run.id);
  fx_put32(&out, index);
  fx_put8(&out, 1);
  fx_put8(&out, setting);
  fx_put8(&out, 5);
  fx_put16(&out, high);
  fx_put16(&out, low);
  fake_stream(f, FX_STEPS_MESSAGE, payload, out.n);
}

struct fx_setting fake_kind(uint8_t kind) {
  struct fx_setting s;
  memset(&s, 0, sizeof s);
  s.kind = kind;
  s.samples = 1;
  s.most = 1;
  s.voltage = 2000000;
  s.count = kind == FX_LOW_LEVEL || kind == FX_NORMAL_LEVEL || kind == FX_JUNCTION ? 1 : 0;
  s.currents[0] = s.count ? 10000000 : 0;
  return s;
}
