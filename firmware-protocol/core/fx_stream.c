#include <string.h>

#include "fx_core.h"

void fx_program_clear(struct fx_core *core) {
  uint16_t i;
  for (i = 0; i < FX_SETTINGS; i++) {
    core->settings[i].kind = FX_KINDS;
  }
#if FX_SETS > 0
  memset(core->set_filled, 0, sizeof core->set_filled);
#endif
}

/* A step between done and loaded; the program is a ring over absolute indices. */
const struct fx_step *fx_step_at(const struct fx_core *core, uint32_t index) {
  return &core->steps[index % core->config->steps];
}

static int is_setting_needed(const struct fx_core *core, uint8_t slot) {
  uint32_t i;
  for (i = core->run.done; i != core->run.loaded; i++) {
    if ((fx_step_at(core, i)->setting & 0x7F) == slot) {
      return 1;
    }
  }
  return 0;
}

static uint16_t setting(struct fx_core *core, struct fx_in *in) {
  struct fx_setting s;
  uint8_t slot;
  uint8_t flags;
  uint8_t i;
  uint8_t is_junction;
  int is_unknown = 0;
  slot = fx_u8(in);
  s.kind = fx_u8(in);
  flags = fx_u8(in);
  s.brief = flags & 1;
  s.samples = fx_u8(in);
  s.most = fx_u8(in);
  s.voltage = fx_measure(in);
  s.count = fx_u8(in);
  is_junction = s.kind == FX_JUNCTION;
  fx_ask(in, slot < 128 && s.kind < FX_KINDS && flags <= 1);
  fx_ask(in, s.samples >= 1 && s.most >= s.samples && s.most <= 24 && s.voltage >= 0);
  fx_ask(in, !is_junction || s.most == 1);
  fx_ask(in, is_junction ? s.count >= 1 && s.count <= 3
                         : s.count == (s.kind == FX_LOW_LEVEL || s.kind == FX_NORMAL_LEVEL));
  for (i = 0; i < 3; i++) {
    s.currents[i] = fx_measure(in);
    fx_ask(in, (s.currents[i] != 0) == (i < s.count));
  }
  s.dwell = fx_u32(in);
  s.limit = fx_u32(in);
  s.below = fx_u32(in);
  s.above = fx_u32(in);
  while (in->bad == 0 && in->left > 0) {
    uint8_t tag = fx_u8(in);
    (void)fx_bytes(in, fx_u8(in));
    is_unknown |= tag < 0x80;
  }
  if (in->bad != 0 || s.most > core->config->points) {
    return in->bad == 0 && slot >= core->config->settings ? (uint16_t)FX_SLOT
                                                          : (uint16_t)FX_UNREADABLE;
  }
  if (slot >= core->config->settings) {
    return FX_SLOT;
  }
  if (is_unknown) {
    return FX_UNKNOWN_ITEM;
  }
  if (is_setting_needed(core, slot)) {
    return FX_IN_USE; /* (M53) */
  }
  core->settings[slot] = s;
  return 0;
}

#if FX_SETS > 0

static int is_set_needed(const struct fx_core *core, uint8_t slot) {
  uint32_t i;
  uint8_t bus;
  for (i = core->run.done; i != core->run.loaded; i++) {
    const struct fx_step *step = fx_step_at(core, i);
    for (bus = 0; bus < FX_BUSES; bus++) {
      if (((step->form >> (2 * bus)) & 3) == 2 && step->terminal[bus] == slot) {
        return 1;
      }
    }
  }
  return 0;
}

static uint16_t set_fill(struct fx_core *core, uint8_t slot, int more, struct fx_in *in) {
  uint32_t first = fx_u16(in);
  uint16_t n = in->left;
  const uint8_t *bits;
  uint32_t i;
  fx_ask(in, first % 8 == 0);
  bits = fx_bytes(in, n);
  if (bits == NULL || n == 0) {
    return FX_UNREADABLE;
  }
  if (slot >= core->config->sets || (more && !core->set_filled[slot])) {
    return FX_SLOT; /* (M49) */
  }
  for (i = 0; i < 8u * n; i++) {
    if (fx_bit(bits, i) && first + i >= core->config->channels) {
      return FX_UNREADABLE;
    }
  }
  if (is_set_needed(core, slot)) {
    return FX_IN_USE;
  }
  if (!more) {
    memset(core->sets[slot], 0, FX_BITMAP);
  }
  for (i = 0; i < 8u * n; i++) {
    if (fx_bit(bits, i)) {
      fx_bit_set(core->sets[slot], first + i, 1);
    }
  }
  core->set_filled[slot] = 1;
  return 0;
}

static uint16_t set_change(struct fx_core *core, uint8_t slot, struct fx_in *in) {
  uint8_t base = fx_u8(in);
  uint16_t i;
  if (in->bad != 0 || in->left % 2 != 0) {
    return FX_UNREADABLE;
  }
  if (slot >= core->config->sets || base >= core->config->sets || !core->set_filled[base]) {
    return FX_SLOT;
  }
  for (i = 0; i < in->left; i = (uint16_t)(i + 2)) {
    if (fx_get16(in->at + i) >= core->config->channels) {
      return FX_UNREADABLE;
    }
  }
  if (is_set_needed(core, slot)) {
    return FX_IN_USE;
  }
  if (slot != base) {
    memcpy(core->sets[slot], core->sets[base], FX_BITMAP);
  }
  core->set_filled[slot] = 1;
  for (i = 0; i < in->left; i = (uint16_t)(i + 2)) {
    uint16_t channel = fx_get16(in->at + i);
    fx_bit_set(core->sets[slot], channel, !fx_bit(core->sets[slot], channel));
  }
  return 0;
}

#endif

static uint16_t set(struct fx_core *core, struct fx_in *in) {
  uint8_t slot = fx_u8(in);
  uint8_t form = fx_u8(in);
  if (in->bad != 0 || form > 2) {
    return FX_UNREADABLE;
  }
#if FX_SETS > 0
  return form == 2 ? set_change(core, slot, in) : set_fill(core, slot, form == 1, in);
#else
  (void)core;
  (void)slot;
  return FX_SLOT;
#endif
}

static void step_read(struct fx_in *in, struct fx_step *step) {
  uint8_t bus;
  step->setting = fx_u8(in);
  step->form = fx_u8(in);
  for (bus = 0; bus < FX_BUSES; bus++) {
    uint8_t code = (uint8_t)((step->form >> (2 * bus)) & 3);
    step->terminal[bus] = code == 1 || code == 2 ? fx_u16(in) : (uint16_t)0;
    fx_ask(in, code != 3 || bus == FX_FORCE_LOW); /* (M50) */
  }
}

static uint16_t steps(struct fx_core *core, struct fx_in *in) {
  struct fx_run *run = &core->run;
  uint32_t first = fx_u32(in);
  uint8_t count = fx_u8(in);
  struct fx_in second = *in;
  struct fx_step step;
  uint8_t i;
  fx_ask(in, count >= 1);
  for (i = 0; in->bad == 0 && i < count; i++) {
    step_read(in, &step);
  }
  fx_end(in);
  if (in->bad != 0) {
    return FX_UNREADABLE;
  }
  if (first != run->loaded || count > run->last - run->loaded) {
    return FX_INDEX;
  }
  if (run->loaded - run->done + count > core->config->steps) {
    return FX_ROOM; /* (M52) */
  }
  for (i = 0; i < count; i++) {
    step_read(&second, &core->steps[run->loaded % core->config->steps]);
    run->loaded++;
  }
  return 0;
}

static uint16_t credit(struct fx_core *core, struct fx_in *in) {
  uint32_t limit;
  fx_exactly(in, 4);
  limit = fx_u32(in);
  if (in->bad != 0) {
    return FX_UNREADABLE;
  }
  if (limit > core->run.credit) {
    core->run.credit = limit; /* (M67) */
  }
  return 0;
}

uint16_t fx_stream_take(struct fx_core *core, uint8_t type, struct fx_in *in) {
  if (type >= 0x60) {
    return 0;
  }
  if (type < FX_SETTING || type > FX_CREDIT) {
    return FX_UNKNOWN_ITEM; /* (M17) */
  }
  (void)fx_u32(in); /* the run, which was looked at */
  if (in->bad != 0) {
    return FX_UNREADABLE;
  }
  switch (type) {
    case FX_SETTING:
      return setting(core, in);
    case FX_SET:
      return set(core, in);
    case FX_STEPS_MESSAGE:
      return steps(core, in);
    default:
      return credit(core, in);
  }
}

/* A streamed frame of the open session (M62 to M64). */
void fx_stream(struct fx_core *core, uint8_t type, uint16_t number, struct fx_in *in) {
  struct fx_run *run = &core->run;
  uint16_t ahead = (uint16_t)(number - run->heard - 1);
  uint16_t fault;
  int is_known = type >= FX_SETTING && type <= FX_CREDIT;
  if (!run->active || (is_known && in->left >= 4 && fx_get32(in->at) != run->id)) {
    return;
  }
  if (ahead != 0) {
    if (!core->nag_due) {
      core->nag_gap = 0;
    }
    core->nag_due = 1;
    core->nag_gap |= ahead < 0x8000u ? 1 : 0;
    return;
  }
  fault = fx_stream_take(core, type, in);
  if (fault != 0) {
    fx_run_end(core, FX_BAD_PROGRAM, fault);
    return;
  }
  run->heard = number;
  if (!core->heard_due) {
    core->heard_due = 1;
    core->heard_since = fx_now(core);
  }
}
