/*
 * The smallest thing a fixture can hold: resistors between channels. For tests, and for a port that
 * runs without a host simulator. Only direct resistors between the force terminals count; what
 * needs a network belongs into the host's simulator (analog.h).
 */
#ifndef TABLE_H
#define TABLE_H

#include "../core/fx.h"

#define TABLE_MOST 64

struct table_resistor {
  uint16_t a;
  uint16_t b;
  double ohm;
};

struct table {
  uint8_t closed[FX_BUSES][FX_CHANNELS];
  struct fx_drive drive[FX_READERS];
  struct table_resistor resistor[TABLE_MOST];
  uint8_t resistors;
  double bus_siemens; /* between any two buses: a switch that has welded */
  double live;        /* volts that are there without a source */
};

void table_all_open(struct table *table);
void table_move(struct table *table, uint8_t bus, uint16_t channel, uint8_t closed);
/* What a meter reads now. */
struct fx_point table_read(const struct table *table, uint8_t reader);

#endif
