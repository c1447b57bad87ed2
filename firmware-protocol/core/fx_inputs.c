#include <string.h>

#include "fx_core.h"

static void note(struct fx_core *core, uint8_t kind, uint32_t count) {
  struct fx_event *e;
  if (!core->open) {
    return;
  }
  /* An event may get lost, a counter may not (M87): of many the oldest goes. */
  if (core->event_count == FX_EVENTS) {
    core->event_count--;
    memmove(core->events, core->events + 1, core->event_count * sizeof core->events[0]);
  }
  e = &core->events[core->event_count++];
  e->kind = kind;
  e->count = count;
  e->at = fx_now(core);
}

/* An opening counts from its first edge, a closing when it has come to rest (M86). */
static void lid(struct fx_core *core, int reads_open) {
  if (core->lid == 0 && reads_open) {
    core->lid = 1;
    core->lid_count++;
    core->lid_rest = fx_now(core);
    fx_run_end(core, FX_LID_OPENED, 0);
    fx_undeclare(core); /* (M42) */
    note(core, 1, core->lid_count);
  } else if (core->lid == 1) {
    if (reads_open) {
      core->lid_rest = fx_now(core);
    } else if (fx_age(core, core->lid_rest) >= core->config->debounce_us) {
      core->lid = 0;
      note(core, 2, core->lid_count);
    }
  }
}

static void button(struct fx_core *core, int reads_down) {
  if (reads_down) {
    core->button_rest = fx_now(core);
    if (!core->button) {
      core->button = 1;
      core->button_count++;
      note(core, 3, core->button_count);
    }
  } else if (core->button && fx_age(core, core->button_rest) >= core->config->debounce_us) {
    core->button = 0;
  }
}

void fx_fail(struct fx_core *core, uint8_t fault) {
  if (core->fault == 0) {
    core->fault = fault == 0 ? (uint8_t)FX_FAULT_UNKNOWN : fault;
  }
  fx_run_end(core, FX_FAULT_END, core->fault);
}

/* Everything that ends a run without the host (14.1). */
void fx_watch(struct fx_core *core) {
  uint8_t health = core->hal->health(core->hal->ctx);
  core->inputs = core->hal->inputs(core->hal->ctx);
  if (core->config->has_lid) {
    lid(core, (core->inputs & FX_IN_LID_OPEN) != 0);
  }
  button(core, (core->inputs & FX_IN_BUTTON) != 0);
  if (health != 0 && core->fault == 0) {
    fx_fail(core, health);
  }
  if (!core->run.active && !core->run.ending) {
    return;
  }
  if ((core->inputs & FX_IN_BROWN_OUT) != 0) {
    fx_run_end(core, FX_BROWN_OUT, 0);
  }
  if ((core->inputs & FX_IN_LINE_LOST) != 0) {
    fx_run_end(core, FX_LINE_LOST, 0);
  }
  if (fx_age(core, core->heard_at) >= 1000000u) {
    core->silent = 1;
    if (core->run.active) {
      fx_run_end(core, FX_HOST_SILENT, 0); /* (M80, M81) */
    }
  }
}
