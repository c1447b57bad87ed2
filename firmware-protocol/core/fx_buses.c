#include "fx_core.h"

enum { OPENING, SETTLING, READING };

#define PAIRS 6u

/* With every channel open, each bus is checked against each other (13.5). */
void fx_check_begin(struct fx_core *core) {
  struct fx_scan *scan = &core->scan;
  fx_open_all(core);
  scan->pair = 0;
  scan->reader = 0;
  scan->reading = OPENING;
  scan->since = fx_now(core);
  scan->wait = (core->config->release_ns + 999u) / 1000u;
  scan->worst.volt = core->config->check_volt;
  scan->worst.amp = 0;
}

static void drive(struct fx_core *core, uint8_t mode) {
  static const uint8_t pairs[PAIRS][2] = {{0, 1}, {2, 3}, {0, 2}, {0, 3}, {1, 2}, {1, 3}};
  struct fx_scan *scan = &core->scan;
  struct fx_drive d = {FX_OFF, 0, 0, 0, 0, 0};
  if (mode == FX_PROBE) {
    d.mode = FX_PROBE;
    d.high = pairs[scan->pair][0];
    d.low = pairs[scan->pair][1];
    d.level = core->config->check_volt;
    d.limit = core->config->check_amp;
    d.most_us = 50000u;
  }
  core->hal->drive(core->hal->ctx, scan->reader, &d);
  scan->since = fx_now(core);
  scan->wait = core->config->check_settle_us;
}

static uint32_t size(int32_t value) {
  return value < 0 ? 0u - (uint32_t)value : (uint32_t)value;
}

/* More than 10 microsiemens: a thousand times the amp is above the volt (M78). */
static int is_bad(const struct fx_point *p) { return size(p->amp) > size(p->volt) / 1000u; }

static void taken(struct fx_core *core, const struct fx_point *p) {
  struct fx_scan *scan = &core->scan;
  /* What drives a voltage and reads neither it nor a current is dead. */
  if (!is_bad(p) && size(p->volt) < size(core->config->check_volt) / 2u) {
    fx_fail(core, FX_FAULT_CONVERTER);
    return;
  }
  if ((uint64_t)size(p->amp) * size(scan->worst.volt) >=
      (uint64_t)size(scan->worst.amp) * size(p->volt)) {
    scan->worst = *p;
  }
}

/* 0: nothing to do yet; 1: went on; 2: all pairs are read. */
int fx_check_run(struct fx_core *core) {
  struct fx_scan *scan = &core->scan;
  struct fx_point point = {0, 0};
  uint32_t age = fx_age(core, scan->since);
  int got;
  if (scan->reading != READING) {
    if (age < scan->wait) {
      return 0;
    }
    if (scan->reading == OPENING) {
      drive(core, FX_PROBE);
      scan->reading = SETTLING;
    } else {
      core->hal->start(core->hal->ctx, scan->reader, 0);
      scan->since = fx_now(core);
      scan->reading = READING;
    }
    return 1;
  }
  got = core->hal->read(core->hal->ctx, scan->reader, &point);
  if (got < 0 || (got == 0 && age > core->config->convert_us)) {
    fx_fail(core, FX_FAULT_CONVERTER);
    return 1;
  }
  if (got == 0) {
    return 0;
  }
  point.volt = fx_clamped(point.volt);
  point.amp = fx_clamped(point.amp);
  taken(core, &point);
  if (core->fault != 0) {
    return 1;
  }
  if (++scan->pair == PAIRS) {
    drive(core, FX_OFF);
    scan->pair = 0;
    if (++scan->reader == core->config->readers) {
      core->check_bad = (uint8_t)is_bad(&scan->worst);
      return 2;
    }
  }
  drive(core, FX_PROBE);
  scan->reading = SETTLING;
  return 1;
}
