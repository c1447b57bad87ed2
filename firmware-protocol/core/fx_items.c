#include <string.h>

#include "fx_core.h"

static void text_put(struct fx_out *out, uint8_t tag, const char *text) {
  uint8_t n = (uint8_t)strlen(text);
  uint8_t i;
  fx_put8(out, tag);
  fx_put8(out, n);
  for (i = 0; i < n; i++) {
    fx_put8(out, (uint8_t)text[i]);
  }
}

static void head_put(struct fx_out *out, uint8_t tag, uint8_t n) {
  fx_put8(out, tag);
  fx_put8(out, n);
}

static void range_put(struct fx_out *out, const struct fx_range *range) {
  head_put(out, 0x05, 29);
  fx_put8(out, range->kind);
  fx_put32(out, (uint32_t)range->current);
  fx_put32(out, (uint32_t)range->compliance);
  fx_put32(out, range->gain);
  fx_put32(out, range->offset);
  fx_put32(out, range->noise);
  fx_put32(out, range->current_noise);
  fx_put32(out, range->time_us);
}

static void switching_put(struct fx_out *out, const struct fx_config *c) {
  head_put(out, 0x04, 13);
  fx_put8(out, c->switching);
  fx_put8(out, c->kelvin);
  fx_put16(out, c->banks);
  fx_put16(out, c->readers);
  fx_put16(out, c->most_high);
  fx_put16(out, c->most_low);
  fx_put16(out, 0);
  fx_put8(out, 0);
}

static void end_put(struct fx_out *out, const struct fx_config *c, uint8_t item) {
  if (item == 0) {
    head_put(out, 0x06, 24);
    fx_put32(out, c->path_high_uohm);
    fx_put32(out, c->path_low_uohm);
    fx_put32(out, c->path_sd_uohm);
    fx_put32(out, c->leakage_fa);
    fx_put32(out, c->operate_ns);
    fx_put32(out, c->release_ns);
  } else if (item == 1) {
    head_put(out, 0x07, 8);
    fx_put32(out, c->probe_uohm);
    fx_put32(out, c->probe_sd_uohm);
  } else if (item == 2) {
    head_put(out, 0x08, 12);
    fx_put32(out, (uint32_t)c->clamp);
    fx_put32(out, c->closures);
    fx_put32(out, c->power_mw);
  } else {
    uint8_t bank = (uint8_t)(item - 3);
    int is_bank = bank < c->bank_span_count;
    const struct fx_span *span =
        is_bank ? &c->bank_spans[bank] : &c->bus_spans[bank - c->bank_span_count];
    head_put(out, is_bank ? 0x81 : 0x82, is_bank ? 6 : 5);
    fx_put16(out, span->first);
    fx_put16(out, span->count);
    if (is_bank) {
      fx_put16(out, span->value);
    } else {
      fx_put8(out, (uint8_t)span->value);
    }
  }
}

uint8_t fx_item_total(const struct fx_core *core) {
  const struct fx_config *c = core->config;
  return (uint8_t)(7 + c->range_count + c->bank_span_count + c->bus_span_count);
}

/* The items of 8.2, always in this order (M35). */
void fx_item_put(const struct fx_core *core, uint8_t item, struct fx_out *out) {
  const struct fx_config *c = core->config;
  switch (item) {
    case 0:
      text_put(out, 0x01, c->identity);
      break;
    case 1:
      text_put(out, 0x02, c->build_text);
      break;
    case 2:
      text_put(out, 0x03, c->calibration);
      break;
    case 3:
      switching_put(out, c);
      break;
    default:
      if (item < 4 + c->range_count) {
        range_put(out, &c->ranges[item - 4]);
      } else {
        end_put(out, c, (uint8_t)(item - 4 - c->range_count));
      }
  }
}

/* As many whole items as fit. BAD_VALUE when there is none from there on. */
uint16_t fx_page(const struct fx_core *core, uint8_t first, struct fx_out *out) {
  uint8_t item;
  if (first >= core->items) {
    return FX_BAD_VALUE;
  }
  fx_put8(out, first);
  fx_put8(out, core->items);
  for (item = first; item < core->items; item++) {
    uint16_t before = out->n;
    fx_item_put(core, item, out);
    if (out->n > FX_HEAD + FX_PAYLOAD) {
      out->n = before; /* it comes on the next page */
      break;
    }
  }
  return 0;
}
