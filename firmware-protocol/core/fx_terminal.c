#include "fx_core.h"

int fx_bit(const uint8_t *bits, uint32_t at) { return (bits[at >> 3] >> (at & 7u)) & 1; }

void fx_bit_set(uint8_t *bits, uint32_t at, int on) {
  uint8_t mask = (uint8_t)(1u << (at & 7u));
  bits[at >> 3] = (uint8_t)(on ? bits[at >> 3] | mask : bits[at >> 3] & (uint8_t)~mask);
}

static uint8_t code_of(const struct fx_step *step, uint8_t bus) {
  return (uint8_t)((step->form >> (2 * bus)) & 3);
}

static const uint8_t *set_of(const struct fx_core *core, uint16_t slot) {
#if FX_SETS > 0
  if (slot < core->config->sets && core->set_filled[slot]) {
    return core->sets[slot];
  }
#else
  (void)core;
  (void)slot;
#endif
  return NULL;
}

/* Declared, no sense wire, and on no other terminal of the step (10.3). */
static int is_rest(const struct fx_core *core, const struct fx_step *step, uint32_t channel) {
  uint8_t place = fx_place(core, channel);
  return place != 0 && !core->class_of[place - 1].sense &&
         !fx_has(core, step, FX_FORCE_HIGH, channel) &&
         !fx_has(core, step, FX_SENSE_HIGH, channel) && !fx_has(core, step, FX_SENSE_LOW, channel);
}

int fx_has(const struct fx_core *core, const struct fx_step *step, uint8_t bus, uint32_t channel) {
  const uint8_t *set;
  switch (code_of(step, bus)) {
    case 0:
      return 0;
    case 1:
      return step->terminal[bus] == channel;
    case 2:
      set = set_of(core, step->terminal[bus]);
      return set != NULL && channel < core->config->channels && fx_bit(set, channel);
    default:
      /* Rest stands on force-low alone (M50), so this does not come back here. */
      return bus == FX_FORCE_LOW && channel < core->config->channels &&
             is_rest(core, step, channel);
  }
}

long fx_next(const struct fx_core *core, const struct fx_step *step, uint8_t bus, uint32_t from) {
  uint8_t code = code_of(step, bus);
  uint32_t channel;
  if (code == 0) {
    return FX_NO_MORE;
  }
  if (code == 1) {
    /* A channel that the fixture lacks is named too, so that it can be refused. */
    return step->terminal[bus] >= from ? (long)step->terminal[bus] : FX_NO_MORE;
  }
  for (channel = from; channel < core->config->channels; channel++) {
    if (fx_has(core, step, bus, channel)) {
      return (long)channel;
    }
  }
  return FX_NO_MORE;
}

uint32_t fx_count(const struct fx_core *core, const struct fx_step *step, uint8_t bus) {
  uint32_t count = 0;
  long channel;
  for (channel = fx_next(core, step, bus, 0); channel != FX_NO_MORE;
       channel = fx_next(core, step, bus, (uint32_t)channel + 1)) {
    count++;
  }
  return count;
}
