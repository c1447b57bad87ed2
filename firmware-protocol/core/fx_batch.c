#include "fx_core.h"

#define MOST_BITS 868u

static void begin(struct fx_core *core, uint8_t type) {
  struct fx_batch *b = &core->batch;
  b->type = type;
  b->count = 0;
  b->first = core->run.done;
  b->took = 0;
  b->closures = 0;
  b->since = fx_now(core);
  b->n = 0;
}

static int has_room(const struct fx_batch *b, uint8_t type, uint16_t size) {
  return b->type == 0 || (b->type == type && (type == FX_BITS ? b->count < MOST_BITS
                                              : b->count < 255 && b->n + size <= sizeof b->bytes));
}

static void point_put(uint8_t *to, const struct fx_point *point) {
  struct fx_out out;
  fx_out_begin(&out, to, 8);
  fx_put32(&out, (uint32_t)point->volt);
  fx_put32(&out, (uint32_t)point->amp);
}

static void result_put(struct fx_batch *b, const struct fx_meter *m) {
  uint8_t i;
  b->bytes[b->n++] = (uint8_t)((m->status << 5) | m->points);
  for (i = 0; i < m->points; i++) {
    point_put(b->bytes + b->n, &m->point[i]);
    b->n = (uint16_t)(b->n + 8);
  }
  if (m->status == FX_REFUSED_STEP) {
    b->bytes[b->n++] = m->reason;
  }
}

static void bits_put(struct fx_batch *b, const struct fx_setting *setting,
                     const struct fx_meter *m) {
  uint8_t bits = m->status == FX_REFUSED_STEP
                     ? (uint8_t)3
                     : fx_brief(setting, m->n, m->sum, m->status == FX_OVER);
  if (b->count % 4 == 0) {
    b->bytes[b->n++] = 0;
  }
  b->bytes[b->n - 1] = (uint8_t)(b->bytes[b->n - 1] | (bits << (b->count % 4 * 2)));
}

/* A refused step of a slot that was never filled has no setting and is no brief step. */
int fx_store(struct fx_core *core, const struct fx_setting *setting, const struct fx_meter *meter,
             uint32_t took, uint32_t closures) {
  struct fx_batch *b = &core->batch;
  uint8_t type = setting != NULL && setting->brief ? FX_BITS : FX_RESULTS;
  uint16_t size = (uint16_t)(1 + 8 * meter->points + (meter->status == FX_REFUSED_STEP));
  if (!has_room(b, type, size)) {
    return 0;
  }
  if (b->type == 0) {
    begin(core, type);
  }
  if (type == FX_BITS) {
    bits_put(b, setting, meter);
  } else {
    result_put(b, meter);
  }
  b->count++;
  b->took += took;
  b->closures += closures;
  b->at = fx_now(core);
  return 1;
}
