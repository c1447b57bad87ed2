#include "fx_core.h"

#include <string.h>

#define RING_MASK ((uint16_t)((FX_RING) - 1))

/* The ring's order of writes holds on one processor with interrupts; it is kept by the compiler. */
#if defined(__GNUC__)
#define IN_ORDER() __atomic_signal_fence(__ATOMIC_SEQ_CST)
#else
#define IN_ORDER() ((void)0)
#endif

typedef char fx_ring_is_a_power_of_two[((FX_RING) & ((FX_RING) - 1)) == 0 && (FX_RING) >= 256 ? 1
                                                                                             : -1];

size_t fx_size(void) { return sizeof(struct fx_core); }

uint32_t fx_now(const struct fx_core *core) { return core->hal->now(core->hal->ctx); }

uint32_t fx_age(const struct fx_core *core, uint32_t since) {
  uint32_t age = fx_now(core) - since;
  return age >= 0x80000000u ? 0u : age;
}

void fx_receive(struct fx_core *core, uint8_t byte) {
  uint16_t head = core->head;
  if ((uint16_t)(head - core->tail) >= FX_RING) {
    core->overrun = (uint16_t)(core->overrun + 1);
    return;
  }
  core->ring[head & RING_MASK] = byte;
  IN_ORDER();
  core->head = (uint16_t)(head + 1);
}

uint16_t fx_room(const struct fx_core *core) {
  return (uint16_t)(FX_RING - (uint16_t)(core->head - core->tail));
}

static uint32_t items_check(struct fx_core *core) {
  uint32_t crc = FX_CRC_START;
  uint8_t i;
  for (i = 0; i < core->items; i++) {
    uint8_t bytes[66];
    struct fx_out out;
    fx_out_begin(&out, bytes, sizeof bytes);
    fx_item_put(core, i, &out);
    crc = fx_crc(crc, bytes, out.n);
  }
  return ~crc;
}

int fx_init(struct fx_core *core, const struct fx_config *config, const struct fx_hal *hal) {
  int wrong;
  hal->all_open(hal->ctx);
  wrong = FX_TRUSTED ? 0 : fx_config_check(config);
  if (wrong != 0) {
    return wrong;
  }
  memset(core, 0, sizeof *core);
  core->config = config;
  core->hal = hal;
  fx_safe(core);
  fx_program_clear(core);
  fx_undeclare(core);
  core->items = fx_item_total(core);
  core->capabilities = items_check(core);
  core->inputs = hal->inputs(hal->ctx);
  core->lid = !config->has_lid ? 2 : (core->inputs & FX_IN_LID_OPEN) != 0 ? 1 : 0;
  core->lid_rest = fx_now(core);
  core->button = (core->inputs & FX_IN_BUTTON) != 0;
  core->button_rest = fx_now(core);
  return 0;
}

/* What to do with the raw frame in core->line; 0: it is kept until the run that ends has ended. */
static int dispatch(struct fx_core *core) {
  const uint8_t *raw = core->line.bytes;
  uint16_t n = core->line.n;
  uint8_t type = raw[0];
  uint16_t session = fx_get16(raw + 1);
  uint16_t number = fx_get16(raw + 3);
  uint32_t check = fx_get32(raw + n - 4);
  int is_mine = core->open && session == (core->nonce & 0xFFFFu);
  struct fx_in in;
  if (type >= 0x80) {
    core->dropped = (uint16_t)(core->dropped + 1); /* (M15) */
    return 1;
  }
  if (is_mine) {
    core->heard_at = fx_now(core); /* (M81) */
    core->silent = 0;
  }
  if (type == FX_STOP && core->run.active) {
    fx_run_end(core, FX_STOPPED, 0); /* (M72) */
  }
  fx_in_begin(&in, raw + FX_HEAD, (uint16_t)(n - FX_RAW_LEAST));
  if (type >= 0x40) {
    if (is_mine) {
      fx_stream(core, type, number, &in);
    }
    return 1;
  }
  /* Results, bus check and END come before the answer to a STOP, and so before any other (M72). */
  if (core->run.ending && !core->silent && (is_mine || type != FX_HELLO)) {
    return 0;
  }
  if (type == FX_HELLO) {
    fx_hello(core, session, number, check, &in);
  } else {
    fx_request(core, type, session, number, check, &in);
  }
  return 1;
}

static void receive(struct fx_core *core) {
  while (core->held || core->tail != core->head) {
    if (!core->held) {
      uint8_t byte;
      enum fx_got got;
      IN_ORDER();
      byte = core->ring[core->tail & RING_MASK];
      core->tail = (uint16_t)(core->tail + 1);
      got = fx_line_take(&core->line, byte);
      core->dropped = (uint16_t)(core->dropped + (got == FX_DROPPED));
      core->oversize = (uint16_t)(core->oversize + (got == FX_OVERSIZE));
      if (got != FX_GOT) {
        continue;
      }
    }
    core->held = (uint8_t)!dispatch(core);
    if (!core->held) {
      fx_line_next(&core->line);
    }
    return; /* one frame a poll, so that its answer is made before the next one's */
  }
}

void fx_poll(struct fx_core *core) {
  fx_watch(core);
  receive(core);
  fx_scan(core);
  fx_send(core);
  core->hal->kick(core->hal->ctx);
}

int fx_is_idle(const struct fx_core *core) {
  return core->tail == core->head && !core->held && core->out_n == 0 && core->scan.state == FX_SCAN_IDLE &&
         core->aside.type == 0 && !core->answer_due && core->event_count == 0;
}
