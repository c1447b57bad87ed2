#include <string.h>

#include "fx_core.h"

/* Whether a step of the configuration has a channel on a bus. */
static int is_wanted(const struct fx_core *core, uint8_t bus, uint32_t channel) {
  uint8_t i;
  for (i = 0; i < core->scan.group; i++) {
    if (core->meters[i].status != FX_REFUSED_STEP &&
        fx_has(core, fx_step_at(core, core->run.done + i), bus, channel)) {
      return 1;
    }
  }
  return 0;
}

static int move(struct fx_core *core, uint8_t bus, uint32_t channel, uint8_t closed) {
  fx_bit_set(core->closed[bus], channel, closed);
  return core->hal->move(core->hal->ctx, bus, (uint16_t)channel, closed);
}

void fx_open_all(struct fx_core *core) {
  core->hal->all_open(core->hal->ctx);
  memset(core->closed, 0, sizeof core->closed);
  core->scan.opened = 1;
}

/* Opens what the next configuration does not need; 1: something moved. */
int fx_open_unwanted(struct fx_core *core) {
  uint8_t bus;
  uint32_t byte;
  int moved = 0;
  int failed = 0;
  for (bus = 0; bus < FX_BUSES; bus++) {
    for (byte = 0; byte < FX_BITMAP; byte++) {
      uint32_t channel;
      if (core->closed[bus][byte] == 0) {
        continue;
      }
      for (channel = 8 * byte; channel < 8 * byte + 8; channel++) {
        if (fx_bit(core->closed[bus], channel) && !is_wanted(core, bus, channel)) {
          failed |= move(core, bus, channel, 0);
          moved = 1;
        }
      }
    }
  }
  if (moved) {
    failed |= core->hal->latch(core->hal->ctx);
  }
  if (failed) {
    fx_fail(core, FX_FAULT_DRIVER);
  }
  return moved;
}

/* Closes what it needs and chooses the ranges, the source being off; 1: something moved. */
int fx_close_wanted(struct fx_core *core) {
  uint8_t i;
  uint8_t bus;
  int moved = 0;
  int failed = 0;
  for (i = 0; i < core->scan.group; i++) {
    const struct fx_step *step = fx_step_at(core, core->run.done + i);
    if (core->meters[i].status == FX_REFUSED_STEP) {
      continue;
    }
    failed |= core->hal->range(core->hal->ctx, i, core->settings[step->setting & 0x7F].kind);
    for (bus = 0; bus < FX_BUSES; bus++) {
      long channel;
      for (channel = fx_next(core, step, bus, 0); channel != FX_NO_MORE;
           channel = fx_next(core, step, bus, (uint32_t)channel + 1)) {
        if (!fx_bit(core->closed[bus], (uint32_t)channel)) {
          failed |= move(core, bus, (uint32_t)channel, 1);
          core->scan.closures++;
          core->scan.opened = 0;
          moved = 1;
        }
      }
    }
  }
  failed |= core->hal->latch(core->hal->ctx);
  if (failed) {
    fx_fail(core, FX_FAULT_DRIVER);
  }
  return moved;
}
