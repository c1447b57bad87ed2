#include "fx_core.h"

#define MOST_US 500000u           /* source on, one step (M57) */
#define MOST_JUNCTION_US 20000u
#define MOST_QUIET_US 10000000u
#define UNPROVED_VOLT 20000000    /* 200 mV */
#define MOST_AMP 1000000000       /* 100 mA (M60) */

const struct fx_range *fx_range_of(const struct fx_core *core, uint8_t kind) {
  uint8_t i;
  for (i = 0; i < core->config->range_count; i++) {
    if (core->config->ranges[i].kind == kind) {
      return &core->config->ranges[i];
    }
  }
  return NULL;
}

static uint8_t code_of(const struct fx_step *step, uint8_t bus) {
  return (uint8_t)((step->form >> (2 * bus)) & 3);
}

static int is_set_missing(const struct fx_core *core, const struct fx_step *step) {
  uint8_t bus;
  for (bus = 0; bus < FX_BUSES; bus++) {
    if (code_of(step, bus) == 2) {
#if FX_SETS > 0
      if (step->terminal[bus] < core->config->sets && core->set_filled[step->terminal[bus]]) {
        continue;
      }
#else
      (void)core;
#endif
      return 1;
    }
  }
  return 0;
}

static uint32_t span_value(const struct fx_span *spans, uint8_t n, uint32_t channel,
                           uint32_t otherwise) {
  uint8_t i;
  for (i = 0; i < n; i++) {
    if (channel >= spans[i].first && channel - spans[i].first < spans[i].count) {
      return spans[i].value;
    }
  }
  return otherwise;
}

/* Channel below 2^16, so the product fits. */
static uint32_t bank_of(const struct fx_core *core, uint32_t channel) {
  const struct fx_config *c = core->config;
  return span_value(c->bank_spans, c->bank_span_count, channel,
                    channel * c->banks / c->channels);
}

static int reaches(const struct fx_core *core, uint32_t channel, uint8_t bus) {
  const struct fx_config *c = core->config;
  /* Where some channels have buses of their own, one that is in no span reaches none. */
  uint32_t otherwise = c->bus_span_count == 0 ? 15u : 0u;
  return (int)((span_value(c->bus_spans, c->bus_span_count, channel, otherwise) >> bus) & 1u);
}

/* What a walk over the channels of a step finds. */
struct touched {
  uint32_t count[FX_BUSES];
  uint8_t beyond;     /* a channel that the fixture lacks */
  uint8_t undeclared;
  uint8_t twice;
  uint8_t apart;      /* a channel does not reach its bus */
  uint8_t signal;
  uint8_t bare;
  uint8_t delicate;
  uint8_t unproved;   /* among the force terminals */
  int32_t nominal;    /* the smallest that is known */
};

static void touch(const struct fx_core *core, const struct fx_step *step, uint8_t bus,
                  uint32_t channel, struct touched *t) {
  const struct fx_class *class_of;
  uint8_t place;
  t->count[bus]++;
  if (bus % 2 == 0 && fx_has(core, step, (uint8_t)(bus + 1), channel)) {
    t->twice = 1;
  }
  if (channel >= core->config->channels) {
    t->beyond = 1;
    return;
  }
  t->apart |= (uint8_t)!reaches(core, channel, bus);
  t->unproved |= (uint8_t)(bus <= FX_FORCE_LOW && !fx_bit(core->proved, channel));
  place = fx_place(core, channel);
  if (place == 0) {
    t->undeclared = 1;
    return;
  }
  class_of = &core->class_of[place - 1];
  t->signal |= class_of->kind == 3;
  t->bare |= class_of->kind == 4;
  t->delicate |= class_of->delicate;
  if (class_of->nominal > 0 && class_of->nominal < t->nominal) {
    t->nominal = class_of->nominal;
  }
}

/* Whether the switching allows the terminals (M59). */
static int joins(const struct fx_core *core, const struct fx_step *step, const struct touched *t) {
  const struct fx_config *c = core->config;
  int is_rest = code_of(step, FX_FORCE_LOW) == 3;
  int is_single = t->count[0] <= 1 && (is_rest || t->count[1] <= 1) && t->count[2] <= 1 &&
                  t->count[3] <= 1;
  return !t->apart && (c->switching == 2 || is_single) &&
         (!is_rest || c->switching == 1 || c->switching == 2) && t->count[0] <= c->most_high &&
         t->count[1] <= c->most_low;
}

struct ceiling {
  int32_t volt;
  int32_t amp;
};

static int32_t least(int32_t a, int32_t b) { return a < b ? a : b; }

/* The table of section 11. */
static struct ceiling ceiling_of(uint8_t kind, const struct touched *t) {
  struct ceiling c = {INT32_MAX, INT32_MAX};
  switch (kind) {
    case FX_LOW_LEVEL:
      c.volt = 2000000;
      c.amp = t->signal ? MOST_AMP / 10 : MOST_AMP;
      break;
    case FX_NORMAL_LEVEL:
      c.volt = t->signal ? 5000000 : UNPROVED_VOLT;
      c.amp = t->signal ? MOST_AMP / 10 : MOST_AMP;
      break;
    case FX_ISOLATION:
      c.volt = t->signal ? 5000000 : t->bare ? 500000000 : UNPROVED_VOLT;
      c.amp = MOST_AMP / 10;
      break;
    case FX_JUNCTION:
      c.volt = least(100000000, t->nominal); /* (M56) */
      c.amp = t->delicate ? 2000000 : 10000000;
      break;
    case FX_CHARGE:
      c.volt = 15000000;
      c.amp = MOST_AMP / 10;
      break;
    default:
      break;
  }
  return c;
}

static uint8_t too_much(const struct fx_core *core, const struct fx_setting *s,
                        const struct fx_range *range, const struct touched *t) {
  struct ceiling c = ceiling_of(s->kind, t);
  int is_quiet = s->kind >= FX_RESIDUAL && s->kind <= FX_DISCHARGE;
  int is_driven = s->kind == FX_ISOLATION || s->kind == FX_CHARGE;
  uint8_t i;
  if (!is_quiet &&
      s->voltage > least(least(c.volt, range->compliance), core->config->clamp)) {
    return FX_OVER_VOLTAGE;
  }
  if (is_driven && range->current > c.amp) {
    return FX_OVER_CURRENT;
  }
  for (i = 0; i < s->count; i++) {
    int32_t most = least(least(range->current, c.amp), MOST_AMP);
    if (s->currents[i] > most || s->currents[i] < -most) {
      return FX_OVER_CURRENT;
    }
  }
  if (s->kind == FX_ISOLATION && s->voltage > UNPROVED_VOLT && t->unproved) {
    return FX_NOT_BARE; /* (M58) */
  }
  return 0;
}

static int is_too_long(const struct fx_setting *s, const struct fx_range *range) {
  uint32_t points = s->kind == FX_JUNCTION ? s->count + 1u : s->samples;
  if (s->kind >= FX_RESIDUAL && s->kind <= FX_DISCHARGE) {
    return s->dwell > MOST_QUIET_US;
  }
  return s->dwell > MOST_US || s->dwell + points * range->time_us > MOST_US ||
         (s->kind == FX_JUNCTION && s->dwell > MOST_JUNCTION_US);
}

/* Why a step is not taken, in the order of 16.2; what only hardware tells comes later. */
uint8_t fx_refusal(const struct fx_core *core, const struct fx_step *step) {
  uint8_t slot = step->setting & 0x7F;
  const struct fx_setting *s = slot < core->config->settings ? &core->settings[slot] : NULL;
  const struct fx_range *range;
  struct touched t = {{0, 0, 0, 0}, 0, 0, 0, 0, 0, 0, 0, 0, INT32_MAX};
  uint32_t all;
  uint8_t bus;
  uint8_t reason;
  if (s == NULL || s->kind == FX_KINDS) {
    return FX_NO_SETTING;
  }
  if (is_set_missing(core, step)) {
    return FX_NO_SET;
  }
  range = fx_range_of(core, s->kind);
  if (range == NULL) {
    return FX_NO_KIND;
  }
  for (bus = 0; bus < FX_BUSES; bus++) {
    long channel;
    for (channel = fx_next(core, step, bus, 0); channel != FX_NO_MORE;
         channel = fx_next(core, step, bus, (uint32_t)channel + 1)) {
      touch(core, step, bus, (uint32_t)channel, &t);
    }
  }
  all = t.count[0] + t.count[1] + t.count[2] + t.count[3];
  if (s->kind == FX_ALL_OPEN ? all != 0 : t.count[0] == 0 || t.count[1] == 0) {
    return FX_TERMINAL;
  }
  if (t.beyond) {
    return FX_NO_CHANNEL;
  }
  if (t.undeclared) {
    return FX_UNDECLARED; /* (M43) */
  }
  if (t.twice) {
    return FX_TWICE;
  }
  if (!joins(core, step, &t)) {
    return FX_SWITCHING;
  }
  if ((uint64_t)all * core->config->channel_mw > core->config->power_mw &&
      core->config->channel_mw != 0) {
    return FX_POWER;
  }
  reason = too_much(core, s, range, &t);
  return reason != 0 ? reason : is_too_long(s, range) ? (uint8_t)FX_TIME : (uint8_t)0;
}

/* Whether two steps share a channel or a bank. */
static int meet(const struct fx_core *core, const struct fx_step *a, const struct fx_step *b) {
  uint8_t i;
  uint8_t k;
  for (i = 0; i < FX_BUSES; i++) {
    long x;
    for (x = fx_next(core, a, i, 0); x != FX_NO_MORE; x = fx_next(core, a, i, (uint32_t)x + 1)) {
      for (k = 0; k < FX_BUSES; k++) {
        long y;
        for (y = fx_next(core, b, k, 0); y != FX_NO_MORE;
             y = fx_next(core, b, k, (uint32_t)y + 1)) {
          if (x == y || bank_of(core, (uint32_t)x) == bank_of(core, (uint32_t)y)) {
            return 1;
          }
        }
      }
    }
  }
  return 0;
}

/* Whether steps can be taken as one configuration (M54). */
int fx_apart(const struct fx_core *core, uint32_t index, uint8_t count) {
  uint8_t i;
  uint8_t k;
  if (FX_READERS == 1 || count > core->config->readers) {
    return count == 1;
  }
  for (i = 0; i < count; i++) {
    for (k = (uint8_t)(i + 1); k < count; k++) {
      if (meet(core, fx_step_at(core, index + i), fx_step_at(core, index + k))) {
        return 0;
      }
    }
  }
  return 1;
}

/* What a junction step that was taken says about its channels (M58). */
void fx_learn(struct fx_core *core, const struct fx_step *step, const struct fx_meter *meter) {
  const struct fx_setting *s = &core->settings[step->setting & 0x7F];
  int conducts = 0;
  int counts = s->voltage >= 90000000;
  uint8_t i;
  uint8_t bus;
  if (s->kind != FX_JUNCTION || meter->status == FX_REFUSED_STEP) {
    return;
  }
  for (i = 0; i < meter->points; i++) {
    int32_t volt = meter->point[i].volt;
    conducts |= meter->status == FX_MEASURED && (volt > 1000000 || volt < -1000000);
  }
  for (i = 0; i < s->count; i++) {
    counts &= s->currents[i] <= 100000 && s->currents[i] >= -100000;
  }
  for (bus = FX_FORCE_HIGH; bus <= FX_FORCE_LOW; bus++) {
    int is_alone = fx_count(core, step, bus) == 1;
    long channel;
    for (channel = fx_next(core, step, bus, 0); channel != FX_NO_MORE;
         channel = fx_next(core, step, bus, (uint32_t)channel + 1)) {
      if (conducts) {
        fx_bit_set(core->proved, (uint32_t)channel, 0);
      } else if (counts && is_alone) {
        fx_bit_set(core->proved, (uint32_t)channel, 1);
      }
    }
  }
}
