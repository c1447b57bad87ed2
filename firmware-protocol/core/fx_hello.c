#include "fx_core.h"

static const uint8_t magic[4] = {0x6A, 0x77, 0x66, 0x78};

void fx_welcome_put(const struct fx_core *core, struct fx_out *out) {
  const struct fx_config *c = core->config;
  uint8_t i;
  for (i = 0; i < 4; i++) {
    fx_put8(out, magic[i]);
  }
  fx_put8(out, 1);
  fx_put32(out, core->nonce);
  fx_put64(out, c->boot);
  fx_put8(out, c->reset_cause);
  fx_put64(out, c->build);
  fx_put8(out, core->lid);
  fx_put32(out, core->lid_count);
  fx_put32(out, core->button_count);
  fx_put16(out, FX_RING - 4);
  fx_put16(out, c->channels);
  fx_put16(out, c->steps);
  fx_put8(out, c->settings);
  fx_put8(out, c->sets);
  fx_put8(out, c->points);
  fx_put32(out, (uint32_t)c->clamp);
  fx_put32(out, c->power_mw);
  fx_put32(out, core->capabilities);
  fx_put32(out, fx_now(core));
}

static void begin_session(struct fx_core *core, uint32_t nonce, uint16_t number, uint32_t check) {
  /* A run under way is taken over: nothing of it is sent any more (M70). */
  fx_safe(core);
  fx_run_forget(core);
  fx_program_clear(core);
  fx_undeclare(core); /* (M42) */
  /* No frame of the old session is sent from now on, but one that is half out (M21). */
  if (core->out_at == 0) {
    core->out_n = 0;
  }
  core->answer_due = 0;
  core->event_count = 0;
  core->heard_due = 0;
  core->nag_due = 0;
  core->nagged = 0;
  core->cache.number = number;
  core->cache.check = check;
  core->cache.n = 0;
  core->nonce = nonce;
  core->open = 1;
  core->silent = 0;
  core->heard_at = fx_now(core);
}

/* HELLO, by section 6; a run that ended and whose host is silent does not stand in the way. */
void fx_hello(struct fx_core *core, uint16_t session, uint16_t number, uint32_t check,
              struct fx_in *in) {
  uint16_t n = in->left;
  const uint8_t *word = fx_bytes(in, 4);
  uint8_t lowest;
  uint8_t highest;
  uint8_t flags;
  uint32_t nonce;
  uint32_t replaces;
  uint8_t i;
  for (i = 0; word != NULL && i < 4; i++) {
    fx_ask(in, word[i] == magic[i]);
  }
  lowest = fx_u8(in);
  fx_ask(in, lowest >= 1);
  highest = fx_u8(in);
  fx_ask(in, highest >= lowest);
  flags = fx_u8(in);
  fx_ask(in, flags <= 1);
  fx_ask(in, fx_u8(in) == 0);
  nonce = fx_u32(in);
  replaces = fx_u32(in);
  fx_end(in);
  fx_ask(in, (nonce & 0xFFFFu) != 0 && (nonce & 0xFFFFu) == session);
  if (in->bad != 0) {
    fx_refuse_aside(core, FX_HELLO, session, number, in->bad, in->bad == FX_BAD_LENGTH ? n : 0u);
    return;
  }
  if (lowest > 1) {
    fx_refuse_aside(core, FX_HELLO, session, number, FX_VERSION, 0x0101); /* (M20) */
    return;
  }
  if (!core->open || nonce != core->nonce) {
    if ((core->run.active || (core->run.ending && !core->silent)) && flags == 0 &&
        replaces != core->nonce) {
      fx_refuse_aside(core, FX_HELLO, session, number, FX_BUSY,
                      fx_age(core, core->heard_at) / 1000u); /* (M22) */
      return;
    }
    begin_session(core, nonce, number, check);
  }
  core->aside.type = FX_WELCOME;
  core->aside.session = session;
  core->aside.number = number;
}
