#include <string.h>

#include "fx_core.h"

#define HOLD_US 10000u /* a result or a HEARD waits so long for company; 20 and 25 ms are allowed */
#define NAG_US 20000u  /* between two HEARDs that complain (M62) */

/* Closes a raw frame with its check, encodes it, and has it sent. */
static void ship(struct fx_core *core, struct fx_out *raw) {
  fx_put32(raw, ~fx_crc(FX_CRC_START, raw->bytes, raw->n));
  core->out_n = (uint16_t)fx_cobs_encode(core->out, raw->bytes, raw->n);
  core->out[core->out_n++] = 0;
  core->out_at = 0;
}

static void head(struct fx_out *raw, uint8_t *bytes, uint8_t type, uint16_t session,
                 uint16_t number) {
  fx_out_begin(raw, bytes, FX_RAW);
  fx_put8(raw, type);
  fx_put16(raw, session);
  fx_put16(raw, number);
}

static uint16_t session_of(const struct fx_core *core) { return (uint16_t)(core->nonce & 0xFFFFu); }

static void aside(struct fx_core *core, uint8_t *bytes) {
  const struct fx_aside *a = &core->aside;
  struct fx_out raw;
  head(&raw, bytes, a->type, a->session, a->number);
  if (a->type == FX_WELCOME) {
    fx_welcome_put(core, &raw);
  } else {
    fx_put8(&raw, a->request);
    fx_put16(&raw, a->code);
    fx_put32(&raw, a->detail);
  }
  core->aside.type = 0;
  ship(core, &raw);
}

static void answer(struct fx_core *core) {
  struct fx_out raw;
  fx_out_begin(&raw, core->cache.bytes, FX_RAW);
  raw.n = core->cache.n; /* the check goes behind it and is not counted in */
  core->answer_due = 0;
  ship(core, &raw);
}

static void event(struct fx_core *core, uint8_t *bytes) {
  struct fx_out raw;
  const struct fx_event *e = &core->events[0];
  head(&raw, bytes, FX_EVENT, session_of(core), 0);
  fx_put8(&raw, e->kind);
  fx_put32(&raw, e->count);
  fx_put32(&raw, e->at);
  core->event_count--;
  memmove(core->events, core->events + 1, core->event_count * sizeof core->events[0]);
  ship(core, &raw);
}

static void heard(struct fx_core *core, uint8_t *bytes, uint8_t gap) {
  struct fx_out raw;
  head(&raw, bytes, FX_HEARD, session_of(core), 0);
  fx_put32(&raw, core->run.id);
  fx_put16(&raw, core->run.heard);
  fx_put8(&raw, gap);
  fx_put32(&raw, core->run.loaded);
  fx_put32(&raw, core->run.credit);
  core->heard_due = 0;
  ship(core, &raw);
}

/* Records carry `heard` too (M63). */
static void record(struct fx_core *core, struct fx_out *raw, uint8_t *bytes, uint8_t type) {
  core->run.records++;
  head(raw, bytes, type, session_of(core), core->run.records);
  if (type != FX_END) {
    fx_put32(raw, core->run.id);
    fx_put16(raw, core->run.heard);
    core->heard_due = 0;
  }
}

static void check(struct fx_core *core, uint8_t *bytes) {
  struct fx_out raw;
  record(core, &raw, bytes, FX_CHECK);
  fx_put32(&raw, core->check_upto);
  fx_put8(&raw, core->check_bad);
  fx_put32(&raw, (uint32_t)core->scan.worst.volt);
  fx_put32(&raw, (uint32_t)core->scan.worst.amp);
  core->check_due = 0;
  ship(core, &raw);
}

static void results(struct fx_core *core, uint8_t *bytes) {
  struct fx_batch *b = &core->batch;
  struct fx_out raw;
  uint16_t i;
  record(core, &raw, bytes, b->type);
  fx_put32(&raw, b->first);
  fx_put32(&raw, b->at);
  fx_put32(&raw, b->took);
  fx_put32(&raw, b->closures);
  if (b->type == FX_BITS) {
    fx_put16(&raw, b->count);
  } else {
    fx_put8(&raw, (uint8_t)b->count);
  }
  for (i = 0; i < b->n; i++) {
    fx_put8(&raw, b->bytes[i]);
  }
  b->type = 0;
  core->scan.flush = 0;
  ship(core, &raw);
}

static void end(struct fx_core *core, uint8_t *bytes) {
  struct fx_out raw;
  record(core, &raw, bytes, FX_END);
  fx_account_put(core, &raw, core->run.records);
  core->run.ending = 0;
  ship(core, &raw);
}

/* Whether the frame of results is to go: it waited long enough, or nothing will join it soon. */
static int is_ripe(const struct fx_core *core) {
  return core->batch.type != 0 &&
         (!core->run.active || core->scan.waiting != 0 || core->scan.flush ||
          fx_age(core, core->batch.since) >= HOLD_US);
}

/* Writes the next frame into core->out; 0 when there is none. Answers first, records in order. */
static int compose(struct fx_core *core) {
  uint8_t bytes[FX_RAW];
  if (core->nagged && fx_age(core, core->nag_at) >= NAG_US) {
    core->nagged = 0;
  }
  if (core->aside.type != 0) {
    aside(core, bytes);
  } else if (core->answer_due) {
    answer(core);
  } else if (!core->open) {
    return 0;
  } else if (core->nag_due && !core->nagged) {
    core->nag_due = 0;
    core->nagged = 1;
    core->nag_at = fx_now(core);
    heard(core, bytes, core->nag_gap);
  } else if (core->event_count != 0 && !core->run.ending) {
    event(core, bytes);
  } else if (core->check_due) {
    check(core, bytes);
  } else if (is_ripe(core)) {
    results(core, bytes);
  } else if (core->run.ending && core->scan.state == FX_SCAN_IDLE) {
    end(core, bytes);
  } else if (core->event_count != 0) {
    event(core, bytes);
  } else if (core->heard_due && fx_age(core, core->heard_since) >= HOLD_US) {
    heard(core, bytes, 0);
  } else {
    return 0;
  }
  return 1;
}

/* Hands bytes to the line as far as it takes them; it is never waited for (M68). */
void fx_send(struct fx_core *core) {
  uint8_t i;
  for (i = 0; i < 4; i++) {
    if (core->out_n == 0 && !compose(core)) {
      return;
    }
    core->out_at = (uint16_t)(core->out_at + core->hal->send(core->hal->ctx,
                                                             core->out + core->out_at,
                                                             (uint16_t)(core->out_n -
                                                                        core->out_at)));
    if (core->out_at < core->out_n) {
      return;
    }
    core->out_n = 0;
    core->out_at = 0;
  }
}
