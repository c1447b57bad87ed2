#include "table.h"

#include <string.h>

void table_all_open(struct table *table) {
  memset(table->closed, 0, sizeof table->closed);
  memset(table->drive, 0, sizeof table->drive);
}

void table_move(struct table *table, uint8_t bus, uint16_t channel, uint8_t closed) {
  if (bus < FX_BUSES && channel < FX_CHANNELS) {
    table->closed[bus][channel] = closed;
  }
}

static double between(const struct table *table) {
  double siemens = table->bus_siemens;
  uint8_t i;
  for (i = 0; i < table->resistors; i++) {
    const struct table_resistor *r = &table->resistor[i];
    const uint8_t *high = table->closed[FX_FORCE_HIGH];
    const uint8_t *low = table->closed[FX_FORCE_LOW];
    if ((high[r->a] && low[r->b]) || (high[r->b] && low[r->a])) {
      siemens += 1.0 / r->ohm;
    }
  }
  return siemens;
}

static int32_t fixed(double value, double unit) {
  double scaled = value / unit;
  return scaled > 2147483647.0 ? INT32_MAX : scaled < -2147483647.0 ? -INT32_MAX : (int32_t)scaled;
}

static double bounded(double value, double most) {
  return value > most ? most : value < -most ? -most : value;
}

struct fx_point table_read(const struct table *table, uint8_t reader) {
  const struct fx_drive *d = &table->drive[reader];
  double siemens = d->mode == FX_PROBE ? table->bus_siemens : between(table);
  double volt = table->live;
  double amp = 0;
  struct fx_point point;
  if (d->mode == FX_CURRENT) {
    double most = d->limit * 1e-8;
    amp = d->level * 1e-10;
    volt = siemens > 0 ? bounded(amp / siemens, most) : amp > 0 ? most : -most;
    amp = siemens > 0 ? volt * siemens : 0;
  } else if (d->mode == FX_VOLTAGE || d->mode == FX_PROBE) {
    amp = bounded(d->level * 1e-8 * siemens, d->limit * 1e-10);
    volt = siemens > 0 ? amp / siemens : d->level * 1e-8;
  } else if (d->mode == FX_LOAD || d->mode == FX_DRAIN) {
    volt = 0;
  }
  point.volt = fixed(volt, 1e-8);
  point.amp = fixed(amp, 1e-10);
  return point;
}
