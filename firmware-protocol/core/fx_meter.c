#include <string.h>

#include "fx_core.h"

#define MOST_US 500000u   /* source on, one step (M57) */
#define STRETCH_US 19500u /* one current of a junction step, half a millisecond below M57 */
#define MOST_AGAIN 3u

enum { LIVE_SETTLE, LIVE_READ, DWELL, DRIVE, SETTLE, READ, DONE };

int fx_meter_done(const struct fx_meter *meter) { return !meter->active || meter->phase == DONE; }

/* Notes that the source now drives or rests; its time counts (M57). */
static void driving(struct fx_core *core, struct fx_meter *m, int on) {
  if (m->on) {
    m->on_total += fx_age(core, m->on_since);
  }
  m->on = (uint8_t)on;
  m->on_since = fx_now(core);
}

void fx_meter_off(struct fx_core *core, uint8_t reader) {
  static const struct fx_drive off = {FX_OFF, 0, 0, 0, 0, 0};
  driving(core, &core->meters[reader], 0);
  core->hal->drive(core->hal->ctx, reader, &off);
}

/* The source for a leg of a kind's pattern (M44). */
static void drive(struct fx_core *core, uint8_t reader) {
  struct fx_meter *m = &core->meters[reader];
  const struct fx_setting *s = m->setting;
  const struct fx_range *range = m->range;
  struct fx_drive d = {FX_OFF, 0, 0, 0, 0, 0};
  int is_minus = m->leg == 1 || m->leg == 2;
  switch (s->kind) {
    case FX_RESIDUAL_LOADED:
      d.mode = FX_LOAD;
      break;
    case FX_DISCHARGE:
      d.mode = FX_DRAIN;
      break;
    case FX_LOW_LEVEL:
    case FX_NORMAL_LEVEL:
      d.mode = FX_CURRENT;
      d.level = is_minus ? -s->currents[0] : s->currents[0];
      d.limit = s->voltage;
      break;
    case FX_ISOLATION:
      d.mode = FX_VOLTAGE;
      d.level = is_minus ? -s->voltage : s->voltage;
      d.limit = range->current;
      break;
    case FX_JUNCTION:
      d.mode = FX_CURRENT;
      d.level = s->currents[m->leg % s->count];
      d.limit = s->voltage;
      break;
    case FX_ALL_OPEN:
    case FX_CHARGE:
      d.mode = FX_VOLTAGE;
      d.level = s->kind == FX_CHARGE && m->leg == 0 ? 0 : s->voltage;
      d.limit = range->current;
      break;
    default:
      break;
  }
  driving(core, m, d.mode == FX_CURRENT || d.mode == FX_VOLTAGE);
  if (m->on) {
    d.most_us = MOST_US - (m->on_total < MOST_US ? m->on_total : MOST_US - 1u);
    if (s->kind == FX_JUNCTION && d.most_us > STRETCH_US) {
      d.most_us = STRETCH_US;
    }
  }
  core->hal->drive(core->hal->ctx, reader, &d);
}

static void phase(struct fx_core *core, struct fx_meter *m, uint8_t next, uint32_t wait) {
  m->phase = next;
  m->since = fx_now(core);
  m->wait = wait;
}

void fx_meter_begin(struct fx_core *core, uint8_t reader, const struct fx_step *step) {
  struct fx_meter *m = &core->meters[reader];
  const struct fx_setting *s = &core->settings[step->setting & 0x7F];
  int looks = core->config->live_volt > 0 && s->kind >= FX_LOW_LEVEL;
  memset(m, 0, sizeof *m);
  m->setting = s;
  m->range = fx_range_of(core, s->kind);
  m->active = 1;
  phase(core, m, looks ? LIVE_SETTLE : s->kind == FX_JUNCTION && s->dwell > 0 ? DWELL : DRIVE,
        looks ? m->range->settle_us : 0);
}

/* How long a leg settles. A junction step has had its dwell before. */
static uint32_t settle_of(const struct fx_meter *m) {
  const struct fx_setting *s = m->setting;
  uint32_t settle = s->kind == FX_DISCHARGE ? m->range->time_us : m->range->settle_us;
  if (s->kind == FX_CHARGE && m->leg == 1) {
    return 0; /* the reading begins with the step of the voltage */
  }
  return settle + (s->kind != FX_JUNCTION && m->points == 0 && m->leg == 0 ? s->dwell : 0u);
}

static void finish(struct fx_core *core, uint8_t reader) {
  fx_meter_off(core, reader);
  core->meters[reader].phase = DONE;
}

/* Another point only where it fits the time that the source may be on (M57). */
static int has_time(const struct fx_meter *m) {
  const struct fx_setting *s = m->setting;
  return (s->kind >= FX_RESIDUAL && s->kind <= FX_DISCHARGE) ||
         s->dwell + (m->points + 1u) * m->range->time_us <= MOST_US;
}

static int less(int32_t amp, int32_t whole, int64_t times, int64_t parts) {
  int64_t a = amp < 0 ? -(int64_t)amp : amp;
  int64_t w = whole < 0 ? -(int64_t)whole : whole;
  return a * times < w * parts;
}

/* Rounded to the nearest integer (10.1). */
static int32_t mean(int64_t sum) {
  return fx_clamped(sum >= 0 ? (sum + 2) / 4 : -((2 - sum) / 4));
}

static void point_taken(struct fx_core *core, uint8_t reader) {
  struct fx_meter *m = &core->meters[reader];
  const struct fx_setting *s = m->setting;
  int is_junction = s->kind == FX_JUNCTION;
  const struct fx_point *from = is_junction ? m->point : &m->point[m->points - 1];
  m->n++;
  m->sum += fx_answer(s->kind, from, is_junction ? m->points : 1, m->status == FX_OVER);
  m->leg = 0;
  m->volt = 0;
  m->amp = 0;
  if (fx_ends(s, m->n, m->sum, m->status == FX_OVER) ||
      (m->n >= s->samples && !has_time(m))) {
    finish(core, reader);
  } else {
    phase(core, m, DRIVE, 0);
  }
}

static void add_point(struct fx_meter *m, int32_t volt, int32_t amp) {
  m->point[m->points].volt = volt;
  m->point[m->points].amp = amp;
  m->points++;
}

/* A reading of a leg. */
static void leg_taken(struct fx_core *core, uint8_t reader, const struct fx_point *got) {
  struct fx_meter *m = &core->meters[reader];
  const struct fx_setting *s = m->setting;
  int32_t volt = fx_clamped(got->volt);
  int32_t amp = fx_clamped(got->amp);
  int64_t sign = m->leg == 1 || m->leg == 2 ? -1 : 1;
  switch (s->kind) {
    case FX_LOW_LEVEL:
    case FX_NORMAL_LEVEL:
    case FX_ISOLATION:
      m->volt += sign * volt;
      m->amp += sign * amp;
      if (++m->leg < 4) {
        phase(core, m, DRIVE, 0);
        return;
      }
      add_point(m, mean(m->volt), mean(m->amp));
      if (s->kind != FX_ISOLATION && less(m->point[m->points - 1].amp, s->currents[0], 100, 1)) {
        m->status = FX_OVER; /* (M45) */
      }
      break;
    case FX_JUNCTION:
      add_point(m, volt, amp);
      if (less(amp, s->currents[m->leg % s->count], 1000, 999)) {
        m->status = FX_OVER;
      }
      if (++m->leg <= s->count) {
        phase(core, m, DRIVE, 0);
        return;
      }
      break;
    case FX_ALL_OPEN:
    case FX_CHARGE:
      add_point(m, volt, amp);
      break;
    default:
      add_point(m, volt, 0);
      break;
  }
  point_taken(core, reader);
}

/* Source on too long: a junction's leg begins again, anything else is a dead converter. */
static int is_over_time(struct fx_core *core, uint8_t reader) {
  struct fx_meter *m = &core->meters[reader];
  const struct fx_setting *s = m->setting;
  uint32_t age = fx_age(core, m->on_since);
  if (!m->on) {
    return 0;
  }
  if (m->on_total + age > MOST_US || (s->kind == FX_JUNCTION && age > STRETCH_US &&
                                      m->again >= MOST_AGAIN)) {
    fx_fail(core, FX_FAULT_CONVERTER);
    return 1;
  }
  if (s->kind == FX_JUNCTION && age > STRETCH_US && m->phase != DWELL) {
    fx_meter_off(core, reader);
    m->again++;
    phase(core, m, DRIVE, 0);
    return 1;
  }
  return 0;
}

/* Begins a reading, with a window where a charge is measured. */
static void start(struct fx_core *core, uint8_t reader, uint8_t next) {
  struct fx_meter *m = &core->meters[reader];
  uint32_t window = m->setting->kind == FX_CHARGE && next == READ ? m->range->time_us : 0;
  core->hal->start(core->hal->ctx, reader, window);
  phase(core, m, next, core->config->convert_us + window);
}

/* 1: a reading is there; 0: not yet; -1: the converter is dead, and the run has ended. */
static int reading(struct fx_core *core, uint8_t reader, struct fx_point *point) {
  const struct fx_meter *m = &core->meters[reader];
  /* The age is taken first: a reading that came while the processor was away is no fault. */
  uint32_t age = fx_age(core, m->since);
  int got = core->hal->read(core->hal->ctx, reader, point);
  if (got < 0 || (got == 0 && age > m->wait)) {
    fx_fail(core, FX_FAULT_CONVERTER);
    return -1;
  }
  return got;
}

static int live_taken(struct fx_core *core, uint8_t reader) {
  struct fx_meter *m = &core->meters[reader];
  const struct fx_setting *s = m->setting;
  struct fx_point point = {0, 0};
  int got = reading(core, reader, &point);
  if (got <= 0) {
    return got != 0;
  }
  if (point.volt > core->config->live_volt || point.volt < -core->config->live_volt) {
    m->status = FX_REFUSED_STEP;
    m->reason = FX_LIVE;
    finish(core, reader);
  } else {
    phase(core, m, s->kind == FX_JUNCTION && s->dwell > 0 ? DWELL : DRIVE, 0);
  }
  return 1;
}

/* Goes on with a step; 1 when something changed. */
int fx_meter_run(struct fx_core *core, uint8_t reader) {
  struct fx_meter *m = &core->meters[reader];
  const struct fx_setting *s = m->setting;
  struct fx_point point = {0, 0};
  int got;
  if (is_over_time(core, reader)) {
    return 1;
  }
  switch (m->phase) {
    case LIVE_SETTLE:
      if (fx_age(core, m->since) < m->wait) {
        return 0;
      }
      start(core, reader, LIVE_READ);
      return 1;
    case LIVE_READ:
      return live_taken(core, reader);
    case DWELL:
      /* At a stretch of its own, so that dwell and reading stay below 20 ms each (M57). */
      if (!m->on) {
        drive(core, reader);
        phase(core, m, DWELL, s->dwell < STRETCH_US ? s->dwell : STRETCH_US);
        return 1;
      }
      if (fx_age(core, m->since) < m->wait) {
        return 0;
      }
      if (m->wait + m->range->time_us > STRETCH_US) {
        fx_meter_off(core, reader);
      }
      phase(core, m, DRIVE, 0);
      return 1;
    case DRIVE:
      drive(core, reader);
      phase(core, m, SETTLE, settle_of(m));
      return 1;
    case SETTLE:
      if (fx_age(core, m->since) < m->wait) {
        return 0;
      }
      if (s->kind == FX_CHARGE && m->leg == 0) {
        m->leg = 1;
        phase(core, m, DRIVE, 0);
      } else {
        start(core, reader, READ);
      }
      return 1;
    case READ:
      got = reading(core, reader, &point);
      if (got > 0) {
        leg_taken(core, reader, &point);
      }
      return got != 0;
    case DONE:
      return 0;
    default:
      fx_fail(core, FX_FAULT_MEMORY);
      return 1;
  }
}
