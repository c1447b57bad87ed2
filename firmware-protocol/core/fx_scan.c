#include <string.h>

#include "fx_core.h"

enum { IDLE = FX_SCAN_IDLE, CHECKING, NEXT, RELEASING, OPERATING, MEASURING, STORING, CLOSING };

#define CHECK_EVERY 64u  /* configurations (M77) */
#define OPEN_AFTER_US 50000u /* of waiting; 100 ms are allowed (M69) */
#define AT_ONCE 32u      /* transitions in one poll, so that it returns soon */

static uint32_t micros(uint32_t nanos) { return (nanos + 999u) / 1000u; }

static void state(struct fx_core *core, uint8_t next, uint32_t wait) {
  core->scan.state = next;
  core->scan.since = fx_now(core);
  core->scan.wait = wait;
}

static int has_waited(const struct fx_core *core) {
  return fx_age(core, core->scan.since) >= core->scan.wait;
}

/* Source off, all open (M80, M82). */
void fx_safe(struct fx_core *core) {
  uint8_t i;
  fx_open_all(core);
  for (i = 0; i < core->config->readers; i++) {
    fx_meter_off(core, i);
  }
}

/* Forgets a run altogether: of a session that is over. */
void fx_run_forget(struct fx_core *core) {
  memset(&core->run, 0, sizeof core->run);
  core->scan.state = IDLE;
  core->scan.waiting = 0;
  core->scan.group = 0;
  core->batch.type = 0;
  core->check_due = 0;
}

static void check(struct fx_core *core, uint8_t closing) {
  fx_check_begin(core);
  core->scan.state = CHECKING;
  core->scan.closing = closing;
  core->scan.since_check = 0;
  core->scan.waiting = 0;
}

void fx_run_begin(struct fx_core *core, uint32_t id, uint32_t first, uint32_t count,
                  uint32_t credit) {
  struct fx_run *run = &core->run;
  memset(run, 0, sizeof *run);
  run->active = 1;
  run->id = id;
  run->last = first + count;
  run->loaded = first;
  run->done = first;
  run->checked = first;
  run->credit = credit;
  fx_program_clear(core);
  core->heard_due = 0;
  core->nag_due = 0;
  core->scan.group = 0;
  core->scan.torn = 0;
  core->scan.waiting = 0;
  check(core, 0);
}

/* Ends the run for a cause of 16.3. The first one counts; one that comes while the closing bus
   check is made cuts that short, as nothing may be driven any longer. */
void fx_run_end(struct fx_core *core, uint8_t end, uint16_t detail) {
  struct fx_run *run = &core->run;
  struct fx_scan *scan = &core->scan;
  fx_safe(core);
  scan->waiting = 0;
  if (run->active) {
    run->active = 0;
    run->ending = 1;
    run->end = end;
    run->detail = detail;
    core->heard_due = 0;
    core->nag_due = 0;
    if (scan->state != STORING) {
      scan->group = 0;
      scan->state = CLOSING;
    }
  } else if (run->ending && scan->state == CHECKING && end != FX_STOPPED) {
    scan->state = IDLE;
    if (end == FX_FAULT_END) {
      run->end = end;
      run->detail = detail;
    }
  }
  if (end == FX_LINE_LOST) {
    /* Nothing more is sent (M70). */
    run->ending = 0;
    scan->state = IDLE;
    core->batch.type = 0;
    core->check_due = 0;
  }
}

static void checked(struct fx_core *core) {
  core->check_due = 1;
  core->check_upto = core->run.done;
  if (!core->check_bad) {
    core->run.checked = core->run.done;
  }
  core->scan.state = core->scan.closing ? IDLE : NEXT;
  if (core->check_bad && core->scan.closing) {
    core->run.end = FX_BUS_CHECK; /* (M78) */
  } else if (core->check_bad) {
    fx_run_end(core, FX_BUS_CHECK, 0);
  } else {
    core->scan.since = fx_now(core);
  }
}

/* Switches do not stay closed for a step that cannot come yet. */
static int rest(struct fx_core *core) {
  if (!core->scan.opened && fx_age(core, core->scan.since) >= OPEN_AFTER_US) {
    fx_open_all(core);
  }
  return 0;
}

static int waits(struct fx_core *core, uint8_t what) {
  core->scan.waiting = what;
  return rest(core);
}

static int is_joined(const struct fx_core *core, uint32_t index) {
  return (fx_step_at(core, index)->setting & 0x80) != 0 && index + 1 != core->run.last;
}

/* SWITCHING, unless a reason that comes before it in 16.2 is there. */
static uint8_t or_switching(uint8_t reason) {
  return reason == FX_NO_SETTING || reason == FX_NO_SET ||
                 (reason >= FX_NO_KIND && reason <= FX_TERMINAL)
             ? reason
             : (uint8_t)FX_SWITCHING;
}

/* Begins a configuration of count steps; parted: they cannot be joined (M54, M55). */
static void begin(struct fx_core *core, uint8_t count, int parted) {
  struct fx_scan *scan = &core->scan;
  int before = scan->group;
  uint8_t i;
  int taken = 0;
  scan->group = count;
  scan->stored = 0;
  scan->waiting = 0;
  scan->took = 0;
  scan->closures = 0;
  scan->since_check++;
  for (i = 0; i < count; i++) {
    struct fx_meter *m = &core->meters[i];
    uint8_t reason = fx_refusal(core, fx_step_at(core, core->run.done + i));
    memset(m, 0, sizeof *m);
    m->active = 1;
    m->reason = parted ? or_switching(reason) : reason;
    if (m->reason != 0) {
      m->status = FX_REFUSED_STEP;
    } else {
      taken = 1;
    }
  }
  scan->began = fx_now(core);
  if (!taken) {
    state(core, STORING, 0);
    return;
  }
  /* A channel belongs to one reader; with several of them nothing is carried over. */
  if ((count > 1 || before > 1) && !scan->opened) {
    fx_open_all(core);
    state(core, RELEASING, micros(core->config->release_ns));
    return;
  }
  {
    int moved = fx_open_unwanted(core);
    if (scan->state == NEXT) {
      state(core, RELEASING, moved ? micros(core->config->release_ns) : 0);
    }
  }
}

static int next(struct fx_core *core) {
  struct fx_scan *scan = &core->scan;
  struct fx_run *run = &core->run;
  uint32_t index = run->done;
  uint8_t count = 1;
  if (index == run->last) {
    fx_run_end(core, FX_DONE, 0);
    return 1;
  }
  if (scan->since_check >= CHECK_EVERY) {
    /* CHECK comes after the results that it covers (M77). */
    if (core->batch.type != 0 || core->check_due) {
      scan->flush = 1;
      return rest(core);
    }
    check(core, 0);
    return 1;
  }
  for (;; count++) {
    if (index + count - 1 == run->loaded) {
      return waits(core, 2);
    }
    if (index + count - 1 >= run->credit) {
      return waits(core, 3); /* (M67) */
    }
    if (!is_joined(core, index + count - 1) || scan->torn || count > core->config->readers) {
      break;
    }
  }
  if (scan->torn || count > core->config->readers) {
    scan->torn = (uint8_t)is_joined(core, index);
    begin(core, 1, 1);
  } else {
    begin(core, count, count > 1 && !fx_apart(core, index, count));
  }
  return 1;
}

static int measure(struct fx_core *core) {
  struct fx_scan *scan = &core->scan;
  int went_on = 0;
  int busy = 0;
  uint8_t i;
  for (i = 0; i < scan->group && scan->state == MEASURING; i++) {
    if (core->meters[i].status == FX_REFUSED_STEP || fx_meter_done(&core->meters[i])) {
      continue;
    }
    went_on |= fx_meter_run(core, i);
    busy |= !fx_meter_done(&core->meters[i]);
  }
  if (busy || scan->state != MEASURING) {
    return went_on;
  }
  for (i = 0; i < scan->group; i++) {
    fx_learn(core, fx_step_at(core, core->run.done + i), &core->meters[i]);
  }
  scan->took = fx_age(core, scan->began);
  state(core, STORING, 0);
  return 1;
}

static void begin_meters(struct fx_core *core) {
  uint8_t i;
  for (i = 0; i < core->scan.group; i++) {
    if (core->meters[i].status != FX_REFUSED_STEP) {
      fx_meter_begin(core, i, fx_step_at(core, core->run.done + i));
    }
  }
  state(core, MEASURING, 0);
}

static int store(struct fx_core *core) {
  struct fx_scan *scan = &core->scan;
  struct fx_run *run = &core->run;
  if (scan->stored == scan->group) {
    state(core, run->active ? NEXT : CLOSING, 0);
    return 1;
  }
  {
    struct fx_meter *m = &core->meters[scan->stored];
    uint8_t slot = fx_step_at(core, run->done)->setting & 0x7F;
    const struct fx_setting *s =
        slot < core->config->settings && core->settings[slot].kind != FX_KINDS
            ? &core->settings[slot]
            : NULL;
    if (!fx_store(core, s, m, scan->stored == 0 ? scan->took : 0,
                  scan->stored == 0 ? scan->closures : 0)) {
      scan->flush = 1;
      return rest(core); /* (M68) */
    }
    m->active = 0;
    scan->stored++;
    run->done++;
  }
  return 1;
}

/* What is left when a run has ended: the last results, then a bus check where one is due (M70). */
static int close(struct fx_core *core) {
  const struct fx_run *run = &core->run;
  if (core->batch.type != 0 || core->check_due) {
    return 0;
  }
  if ((run->end == FX_DONE || run->end == FX_STOPPED) && core->fault == 0 && core->lid != 1) {
    check(core, 1);
  } else {
    core->scan.state = IDLE;
  }
  return 1;
}

static int advance(struct fx_core *core) {
  switch (core->scan.state) {
    case IDLE:
      return 0;
    case CHECKING: {
      int went = fx_check_run(core);
      if (went == 2) {
        checked(core);
      }
      return went != 0;
    }
    case NEXT:
      return next(core);
    case RELEASING:
      if (!has_waited(core)) {
        return 0;
      }
      (void)fx_close_wanted(core);
      if (core->scan.state == RELEASING) {
        state(core, OPERATING, micros(core->config->operate_ns));
      }
      return 1;
    case OPERATING:
      if (!has_waited(core)) {
        return 0;
      }
      begin_meters(core);
      return 1;
    case MEASURING:
      return measure(core);
    case STORING:
      return store(core);
    case CLOSING:
      return close(core);
    default:
      fx_fail(core, FX_FAULT_MEMORY);
      core->scan.state = IDLE;
      return 1;
  }
}

void fx_scan(struct fx_core *core) {
  uint8_t i;
  for (i = 0; i < AT_ONCE && advance(core); i++) {
  }
}
