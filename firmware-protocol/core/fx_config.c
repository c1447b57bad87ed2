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

/* The number of the first member out of range, from 1 in the order of fx.h; 0: all hold. */
int fx_config_check(const struct fx_config *c) {
  const uint8_t holds[] = {
      (uint8_t)is_name(c->identity),
      (uint8_t)is_name(c->build_text),
      (uint8_t)is_name(c->calibration),
      1,
      c->boot < ((uint64_t)1 << 63),
      1,
      c->channels >= 1 && c->channels <= FX_CHANNELS,
      c->steps >= 16 && c->steps <= FX_STEPS,
      c->settings >= 8 && c->settings <= FX_SETTINGS,
      c->sets == 0 || (c->sets >= 4 && c->sets <= FX_SETS),
      c->points >= 1 && c->points <= FX_POINTS,
      c->clamp > 0,
      1,
      1,
      c->switching <= 3,
      c->kelvin <= 2,
      c->banks >= 1,
      c->readers >= 1 && c->readers <= FX_READERS,
      c->most_high >= 1,
      c->most_low >= 1,
      c->range_count == 0 || c->ranges != NULL,
      c->range_count <= FX_KINDS && ranges_hold(c),
      1,
      1,
      1,
      1,
      c->operate_ns <= 1000000000u,
      c->release_ns <= 50000000u,
      1,
      1,
      1,
      c->bank_span_count == 0 || c->bank_spans != NULL,
      c->bank_span_count <= 100 &&
          spans_hold(c->bank_spans, c->bank_span_count, c->channels, (uint16_t)(c->banks - 1)),
      c->bus_span_count == 0 || c->bus_spans != NULL,
      c->bus_span_count <= 100 && spans_hold(c->bus_spans, c->bus_span_count, c->channels, 15),
      c->has_lid <= 1,
      c->debounce_us <= 40000u,
      c->check_volt > 0 && c->check_volt <= 5000000,
      c->check_amp > 0 && c->check_amp <= 100000000,
      c->check_settle_us <= 5000u,
      c->live_volt >= 0,
      c->convert_us >= 1 && c->convert_us <= 100000u,
  };
  int i;
  for (i = 0; i < (int)(sizeof holds / sizeof holds[0]); i++) {
    if (!holds[i]) {
      return i + 1;
    }
  }
  return 0;
}
