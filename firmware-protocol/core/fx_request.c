#include "fx_core.h"

void fx_refuse_aside(struct fx_core *core, uint8_t request, uint16_t session, uint16_t number,
                     uint16_t code, uint32_t detail) {
  core->aside.type = FX_REFUSED;
  core->aside.request = request;
  core->aside.session = session;
  core->aside.number = number;
  core->aside.code = code;
  core->aside.detail = detail;
}

void fx_account_put(const struct fx_core *core, struct fx_out *out, uint16_t records) {
  const struct fx_run *run = &core->run;
  fx_put32(out, run->id);
  fx_put16(out, run->heard);
  fx_put8(out, run->end);
  fx_put16(out, run->detail);
  fx_put32(out, run->loaded);
  fx_put32(out, run->done);
  fx_put32(out, run->credit);
  fx_put32(out, run->checked);
  fx_put16(out, records);
}

void fx_state_put(const struct fx_core *core, struct fx_out *out) {
  uint8_t doing = core->fault != 0 ? 4 : !core->run.active ? 0
                  : core->scan.waiting != 0 ? core->scan.waiting : 1;
  fx_put8(out, doing);
  fx_put8(out, core->lid);
  fx_put32(out, core->lid_count);
  fx_put32(out, core->button_count);
  fx_put16(out, core->fault);
  fx_put32(out, fx_now(core));
  fx_put16(out, core->dropped);
  fx_put16(out, core->oversize);
  fx_put16(out, core->overrun);
  fx_account_put(core, out, core->run.records);
}

/* RUN; refusals in the order of M61. */
static uint16_t run(struct fx_core *core, struct fx_in *in, uint32_t *detail) {
  uint32_t id;
  uint32_t first;
  uint32_t count;
  uint32_t credit;
  uint32_t declaration;
  fx_exactly(in, 20);
  id = fx_u32(in);
  first = fx_u32(in);
  count = fx_u32(in);
  credit = fx_u32(in);
  declaration = fx_u32(in);
  fx_ask(in, id != 0 && count >= 1 && count <= UINT32_MAX - first);
  if (in->bad != 0) {
    return in->bad;
  }
  if (core->run.active || core->run.ending) {
    return FX_RUN_UNDER_WAY;
  }
  if (core->fault != 0 || (core->inputs & FX_IN_BROWN_OUT) != 0) {
    *detail = core->fault != 0 ? core->fault : (uint8_t)FX_FAULT_SUPPLY;
    return FX_FAULTY;
  }
  if (core->lid == 1) {
    return FX_LID_OPEN;
  }
  if (!core->declared) {
    return FX_NOT_DECLARED;
  }
  if (declaration != fx_declaration(core)) {
    *detail = fx_declaration(core);
    return FX_OTHER_DECLARATION;
  }
  if (id == core->run.id) {
    return FX_BAD_VALUE;
  }
  fx_run_begin(core, id, first, count, credit);
  return 0;
}

/* The answer's type, its payload written; FX_REFUSED with the code when it is refused. */
static uint8_t execute(struct fx_core *core, uint8_t type, struct fx_in *in, struct fx_out *out,
                       uint16_t *code, uint32_t *detail) {
  uint8_t first;
  switch (type) {
    case FX_CAPABILITIES:
      fx_exactly(in, 1);
      first = fx_u8(in);
      *code = in->bad != 0 ? in->bad : fx_page(core, first, out);
      return FX_PAGE;
    case FX_DECLARE:
      *code = fx_declare(core, in, detail);
      fx_put32(out, fx_declaration(core));
      return FX_DECLARED;
    case FX_CHANNELS_MESSAGE:
      *code = fx_channels(core, in);
      fx_put32(out, fx_declaration(core));
      return FX_DECLARED;
    case FX_RUN:
      *code = run(core, in, detail);
      fx_state_put(core, out);
      return FX_STATE;
    case FX_STOP:
    case FX_STATUS:
      fx_end(in);
      *code = in->bad;
      fx_state_put(core, out);
      return FX_STATE;
    default:
      *code = FX_UNKNOWN_TYPE; /* (M17) */
      return FX_REFUSED;
  }
}

/* Writes the answer into the cache, header first; the check is added when it is sent. */
static void answer(struct fx_core *core, uint8_t type, uint16_t session, uint16_t number,
                   struct fx_in *in) {
  struct fx_out out;
  uint16_t n = in->left;
  uint16_t code = 0;
  uint32_t detail = 0;
  uint8_t kind;
  fx_out_begin(&out, core->cache.bytes, FX_RAW);
  fx_put8(&out, 0);
  fx_put16(&out, session);
  fx_put16(&out, number);
  kind = execute(core, type, in, &out, &code, &detail);
  if (code != 0) {
    kind = FX_REFUSED;
    out.n = FX_HEAD;
    fx_put8(&out, type);
    fx_put16(&out, code);
    fx_put32(&out, code == FX_BAD_LENGTH ? n : detail);
  }
  core->cache.bytes[0] = kind;
  core->cache.n = out.n;
  core->answer_due = 1;
}

/* A request but HELLO, in the order of section 7.1; STOP has stopped already. */
void fx_request(struct fx_core *core, uint8_t type, uint16_t session, uint16_t number,
                uint32_t check, struct fx_in *in) {
  uint16_t ahead = (uint16_t)(number - core->cache.number);
  uint16_t code = 0;
  if (!core->open || session != (core->nonce & 0xFFFFu)) {
    code = FX_NO_SESSION; /* (M29) */
  } else if (ahead == 0) {
    if (check == core->cache.check && core->cache.n != 0) {
      core->answer_due = 1; /* (M30) */
      return;
    }
    code = FX_NUMBER_REUSED; /* (M31) */
  } else if (ahead >= 0x8000u) {
    code = FX_NUMBER_OLD; /* (M32) */
  }
  if (code != 0) {
    fx_refuse_aside(core, type, session, number, code, 0);
    return;
  }
  core->cache.number = number;
  core->cache.check = check;
  answer(core, type, session, number, in);
}
