#include <string.h>

#include "fx_core.h"

static int is_name(const char *text) {
  size_t n = text == NULL ? 0 : strlen(text);
  return n >= 1 && n <= 64 && fx_is_text((const uint8_t *)text, (uint16_t)n);
}

static int ranges_hold(const struct fx_config *c) {
  uint8_t i;
  uint16_t seen = 0;
  for (i = 0; i < c->range_count; i++) {
    const struct fx_range *r = &c->ranges[i];
    uint16_t bit = (uint16_t)(r->kind < FX_KINDS ? 1u << r->kind : 0u);
    if (bit == 0 || (seen & bit) != 0 || r->current <= 0 || r->compliance <= 0 ||
        r->time_us < 1 || r->time_us > 500000u || r->settle_us > r->time_us) {
      return 0;
    }
    seen = (uint16_t)(seen | bit);
  }
  return 1;
}

static int spans_hold(const struct fx_span *spans, uint8_t n, uint16_t channels, uint16_t most) {
  uint8_t i;
  for (i = 0; i < n; i++) {
    if (spans[i].count < 1 || (uint32_t)spans[i].first + spans[i].count > channels ||
        spans[i].value > most) {
      return 0;
    }
  }
  return 1;
}

/* Counts a member; its number is kept when it is the first that is out of range. */
struct members {
  int at;
  int wrong;
};

static void within(struct members *m, uint32_t value, uint32_t least, uint32_t most) {
  m->at++;
  if (m->wrong == 0 && (value < least || value > most)) {
    m->wrong = m->at;
  }
}

static void holds(struct members *m, int is) { within(m, (uint32_t)(is != 0), 1, 1); }

/* Members that may have any value. */
static void any(struct members *m, int count) { m->at += count; }

/* The number of the first member out of range, from 1 in the order of fx.h; 0: all hold. */
int fx_config_check(const struct fx_config *c) {
  struct members m = {0, 0};
  holds(&m, is_name(c->identity));
  holds(&m, is_name(c->build_text));
  holds(&m, is_name(c->calibration));
  any(&m, 1);
  holds(&m, c->boot >> 63 == 0);
  any(&m, 1);
  within(&m, c->channels, 1, FX_CHANNELS);
  within(&m, c->steps, 16, FX_STEPS);
  within(&m, c->settings, 8, FX_SETTINGS);
  within(&m, c->sets, c->sets == 0 ? 0 : 4, FX_SETS);
  within(&m, c->points, 1, FX_POINTS);
  holds(&m, c->clamp > 0);
  any(&m, 2);
  within(&m, c->switching, 0, 3);
  within(&m, c->kelvin, 0, 2);
  within(&m, c->banks, 1, UINT16_MAX);
  within(&m, c->readers, 1, FX_READERS);
  within(&m, c->most_high, 1, UINT16_MAX);
  within(&m, c->most_low, 1, UINT16_MAX);
  holds(&m, c->range_count == 0 || c->ranges != NULL);
  holds(&m, c->range_count <= FX_KINDS && ranges_hold(c));
  any(&m, 4);
  within(&m, c->operate_ns, 0, 1000000000u);
  within(&m, c->release_ns, 0, 50000000u);
  any(&m, 3);
  holds(&m, c->bank_span_count == 0 || c->bank_spans != NULL);
  holds(&m, c->bank_span_count <= 100 &&
                spans_hold(c->bank_spans, c->bank_span_count, c->channels,
                           (uint16_t)(c->banks - 1)));
  holds(&m, c->bus_span_count == 0 || c->bus_spans != NULL);
  holds(&m, c->bus_span_count <= 100 &&
                spans_hold(c->bus_spans, c->bus_span_count, c->channels, 15));
  within(&m, c->has_lid, 0, 1);
  within(&m, c->debounce_us, 0, 40000u);
  within(&m, (uint32_t)c->check_volt, 1, 5000000);
  within(&m, (uint32_t)c->check_amp, 1, 100000000);
  within(&m, c->check_settle_us, 0, 5000u);
  holds(&m, c->live_volt >= 0);
  within(&m, c->convert_us, 1, 100000u);
  return m.wrong;
}
