/* A fixture with named ways to fail, and a host at the other end of its line. Time stands still
   until it is moved on. */
#ifndef FAKE_H
#define FAKE_H

#include "../core/fx_core.h"
#include "../ports/table.h"

enum fake_failure {
  FAKE_SOUND = 0,
  FAKE_DEAD_ADC,      /* a reading never comes */
  FAKE_BROKEN_ADC,    /* it says that it failed */
  FAKE_STUCK_AT_ZERO, /* every reading is 0 V, 0 A */
  FAKE_STUCK_RELAY,   /* the driver says that a switch did not move */
  FAKE_WELDED,        /* two buses stay joined */
  FAKE_HOT            /* the board says that it is too hot */
};

#ifndef FAKE_FRAMES
#define FAKE_FRAMES 400
#endif

struct fake_frame {
  uint8_t type;
  uint16_t session;
  uint16_t number;
  uint16_t n;
  uint8_t payload[FX_PAYLOAD];
};

struct fake {
  struct fx_core core;
  struct fx_config config;
  struct fx_hal hal;
  struct table table;
  enum fake_failure failure;
  double weld;           /* siemens between the buses with FAKE_WELDED, 0.01 */
  int32_t skew;          /* 10 nV that a reading under a positive current is too high */
  uint32_t now;
  uint32_t step;         /* between two polls in fake_run, 100 us */
  uint32_t tick;         /* added with each look at the clock */
  uint8_t inputs;
  uint8_t blocked;       /* the line takes nothing */
  uint16_t gulp;         /* bytes that it takes at once, 0: all */
  uint8_t all_open;      /* calls of it */
  uint32_t kicks;
  uint32_t moved_hot;    /* switches that moved with the source on: must stay 0 (M46) */
  uint32_t most_closed;
  uint32_t undeclared;   /* channels that closed though they may never: must stay 0 (M43) */
  uint32_t overdriven;   /* more than 10 mA into what leads to a signal: must stay 0 (M55) */
  uint32_t on_since;
  uint32_t longest_on;
  struct fx_line line;
  struct fake_frame frames[FAKE_FRAMES];
  int count;
  int taken;             /* frames that the test has looked at */
  int bad;               /* frames that could not be read: must stay 0 */
  uint16_t session;
  uint16_t number;
  uint16_t stream;
};

void fake_begin(struct fake *fake);      /* defaults, before fake_start */
int fake_start(struct fake *fake);       /* what fx_init returns */
void fake_run(struct fake *fake, uint32_t us); /* polls every step */
/* Any frame, with a good check, and one poll. */
void fake_send(struct fake *fake, uint8_t type, uint16_t session, uint16_t number,
               const uint8_t *payload, uint16_t n);
/* The next frame of a type that was not taken yet; NULL: none. */
const struct fake_frame *fake_next(struct fake *fake, uint8_t type);
int fake_is_open(const struct fake *fake); /* every channel open, source off */
/* Requests that answer at once. */
const struct fake_frame *fake_ask(struct fake *fake, uint8_t type, const uint8_t *payload,
                                  uint16_t n);
const struct fake_frame *fake_hello(struct fake *fake, uint32_t nonce, uint8_t flags,
                                    uint32_t replaces);
/* A declaration with classes 1 ground, 3 signal or 4 bare, all channels in place 1. */
void fake_declare(struct fake *fake, uint8_t class_of);
const struct fake_frame *fake_begin_run(struct fake *fake, uint32_t id, uint32_t first,
                                        uint32_t count, uint32_t credit);
void fake_stream(struct fake *fake, uint8_t type, const uint8_t *payload, uint16_t n);
void fake_setting(struct fake *fake, uint8_t slot, const struct fx_setting *setting);
void fake_step(struct fake *fake, uint32_t index, uint8_t setting, uint16_t high, uint16_t low);
struct fx_setting fake_kind(uint8_t kind); /* a setting that no ceiling refuses */

#endif
