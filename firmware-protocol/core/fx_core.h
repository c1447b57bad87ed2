/* The inside of the core, shared by its files and its tests. Ports need it for the size alone. */
#ifndef FX_CORE_H
#define FX_CORE_H

#include "fx.h"
#include "fx_frame.h"

/* Refusals, 16.1. */
enum {
  FX_UNKNOWN_TYPE = 1, FX_BAD_LENGTH = 2, FX_BAD_VALUE = 3, FX_NO_SESSION = 4,
  FX_NUMBER_REUSED = 5, FX_NUMBER_OLD = 6, FX_VERSION = 7, FX_BUSY = 8,
  FX_RUN_UNDER_WAY = 9, FX_LID_OPEN = 10, FX_NOT_DECLARED = 11, FX_OTHER_DECLARATION = 12,
  FX_FAULTY = 13
};

/* Why a step was not taken, 16.2. */
enum {
  FX_NO_KIND = 1, FX_NO_CHANNEL = 2, FX_UNDECLARED = 3, FX_TWICE = 4, FX_TERMINAL = 5,
  FX_SWITCHING = 6, FX_OVER_VOLTAGE = 7, FX_OVER_CURRENT = 8, FX_TIME = 9, FX_NOT_BARE = 10,
  FX_POWER = 11, FX_NO_SETTING = 12, FX_NO_SET = 13, FX_LIVE = 14
};

/* How a run ended, 16.3. */
enum {
  FX_DONE = 1, FX_STOPPED = 2, FX_HOST_SILENT = 3, FX_LID_OPENED = 4, FX_BUS_CHECK = 5,
  FX_BAD_PROGRAM = 6, FX_FAULT_END = 7, FX_LINE_LOST = 8, FX_BROWN_OUT = 9, FX_TAKEN_OVER = 10
};

/* What is wrong with a program, 16.5. */
enum {
  FX_UNREADABLE = 1, FX_UNKNOWN_ITEM = 2, FX_INDEX = 3, FX_ROOM = 4, FX_SLOT = 5, FX_IN_USE = 6
};

/* Types of messages, section 5. */
enum {
  FX_HELLO = 0x01, FX_CAPABILITIES = 0x02, FX_DECLARE = 0x03, FX_CHANNELS_MESSAGE = 0x04,
  FX_RUN = 0x05, FX_STOP = 0x06, FX_STATUS = 0x07,
  FX_SETTING = 0x41, FX_SET = 0x42, FX_STEPS_MESSAGE = 0x43, FX_CREDIT = 0x44,
  FX_REFUSED = 0x80, FX_WELCOME = 0x81, FX_PAGE = 0x82, FX_DECLARED = 0x83, FX_STATE = 0x84,
  FX_RESULTS = 0xC1, FX_BITS = 0xC2, FX_CHECK = 0xC3, FX_HEARD = 0xC4, FX_END = 0xC5,
  FX_EVENT = 0xC6
};

enum { FX_MEASURED = 0, FX_OVER = 1, FX_REFUSED_STEP = 2 };

#define FX_SCAN_IDLE 0 /* state of the scan engine */
#define FX_NO_MORE (-1L) /* no further channel */
#define FX_CLASSES 15u
#define FX_BITMAP (((FX_CHANNELS) + 7) / 8)
#define FX_STEP_POINTS (FX_POINTS < 4 ? 4 : FX_POINTS) /* a junction step has up to 4 */

struct fx_class {
  uint8_t kind; /* 1 ground, 2 rail, 3 signal, 4 bare */
  uint8_t sense;
  uint8_t delicate;
  int32_t nominal;
};

struct fx_setting {
  uint8_t kind; /* FX_KINDS: never filled */
  uint8_t brief;
  uint8_t samples;
  uint8_t most;
  uint8_t count;
  int32_t voltage;
  int32_t currents[3];
  uint32_t dwell;
  uint32_t limit;
  uint32_t below;
  uint32_t above;
};

struct fx_step {
  uint8_t setting;
  uint8_t form;
  uint16_t terminal[FX_BUSES];
};

/* A request's answer, kept for a repetition (M30). */
struct fx_cache {
  uint16_t number;
  uint32_t check;
  uint16_t n; /* bytes of the answer, 0: there is none */
  uint8_t bytes[FX_RAW];
};

/* An answer that is not kept: WELCOME, or a refusal that leaves the last request as it was. */
struct fx_aside {
  uint8_t type; /* FX_WELCOME, FX_REFUSED or 0 */
  uint8_t request;
  uint16_t session;
  uint16_t number;
  uint16_t code;
  uint32_t detail;
};

struct fx_event {
  uint8_t kind;
  uint32_t count;
  uint32_t at;
};

#define FX_EVENTS 4u

/* What one reader is at. */
struct fx_meter {
  const struct fx_setting *setting; /* of its step */
  const struct fx_range *range;
  uint8_t active; /* a step is being taken, or its result waits for room */
  uint8_t phase;  /* fx_meter.c */
  uint8_t leg;    /* of a pattern */
  uint8_t status;
  uint8_t reason;
  uint8_t points; /* read so far */
  uint8_t n;      /* that count for the extension */
  uint8_t on;     /* the source drives */
  uint8_t again;  /* legs that were driven too long and begun again */
  uint32_t since; /* of the phase */
  uint32_t wait;  /* how long it lasts */
  uint32_t on_since;
  uint32_t on_total; /* of this step, before on_since */
  int64_t volt;      /* signed sums over a pattern */
  int64_t amp;
  uint64_t sum; /* of the answers */
  struct fx_point point[FX_STEP_POINTS];
};

/* The account of a run, 7.3, and its program. */
struct fx_run {
  uint8_t active; /* under way */
  uint8_t ending; /* ended, but END has not gone out */
  uint8_t end;
  uint16_t detail;
  uint32_t id;
  uint32_t last; /* index after the last step */
  uint16_t heard;
  uint32_t loaded;
  uint32_t done;
  uint32_t credit;
  uint32_t checked;
  uint16_t records;
};

struct fx_scan {
  uint8_t state;   /* fx_scan.c */
  uint8_t waiting; /* for 2 steps or 3 credit, as STATE says; 0: neither */
  uint8_t group;   /* steps of the configuration */
  uint8_t stored;  /* of them with their result in a frame */
  uint8_t opened;  /* nothing is closed */
  uint8_t since_check; /* configurations */
  uint8_t torn;    /* the step before was refused as one of too many joined ones */
  uint8_t pair;    /* of the bus check */
  uint8_t reader;  /* of the bus check */
  uint8_t reading;
  uint8_t closing; /* the bus check is the last one */
  uint8_t flush;   /* the frame of results is to go out before anything else can */
  uint32_t since;
  uint32_t wait;
  uint32_t began; /* of the configuration */
  uint32_t took;
  uint32_t closures;
  struct fx_point worst;
};

/* A frame of results that is being filled. */
struct fx_batch {
  uint8_t type; /* FX_RESULTS, FX_BITS or 0: empty */
  uint16_t count;
  uint32_t first;
  uint32_t at;
  uint32_t took;
  uint32_t closures;
  uint32_t since; /* its first result waits since then (M75) */
  uint16_t n;
  uint8_t bytes[FX_PAYLOAD - 23];
};

/* Small members first: a Thumb instruction reaches the first bytes of a structure only. */
struct fx_core {
  const struct fx_config *config;
  const struct fx_hal *hal;

  uint8_t held; /* line holds a frame that waits for the end of a run */
  uint8_t open; /* a session is */
  uint8_t silent; /* the host, for a second */
  uint8_t answer_due;
  uint8_t heard_due; /* HEARD (12.2) */
  uint8_t nag_due;
  uint8_t nag_gap;
  uint8_t nagged;
  uint8_t lid; /* 0 closed, 1 open, 2 none */
  uint8_t button;
  uint8_t inputs;
  uint8_t event_count;
  uint8_t fault;
  uint8_t items;
  uint8_t declared;
  uint8_t classes;
  uint8_t check_due; /* a CHECK is to be sent */
  uint8_t check_bad;

  /* Received bytes: fx_receive writes head, fx_poll writes tail. */
  volatile uint16_t head;
  volatile uint16_t tail;
  volatile uint16_t overrun;
  uint16_t dropped;
  uint16_t oversize;
  uint16_t out_n; /* the frame on its way to the line */
  uint16_t out_at;

  uint32_t nonce;
  uint32_t heard_at; /* last valid frame of the session */
  uint32_t heard_since;
  uint32_t nag_at;
  uint32_t lid_rest; /* since when it reads closed, while it counts as open */
  uint32_t button_rest;
  uint32_t lid_count;
  uint32_t button_count;
  uint32_t capabilities;
  uint32_t declare_crc; /* over the payload of DECLARE */
  uint32_t check_upto;

  struct fx_run run;
  struct fx_scan scan;
  struct fx_aside aside;
  struct fx_batch batch;
  struct fx_cache cache;
  struct fx_meter meters[FX_READERS];
  struct fx_event events[FX_EVENTS];
  struct fx_class class_of[FX_CLASSES];
  struct fx_line line;
  uint8_t out[FX_WIRE + 1];
  uint8_t ring[FX_RING];
  uint8_t places[(FX_CHANNELS + 1) / 2];
  uint8_t proved[FX_BITMAP];
  uint8_t closed[FX_BUSES][FX_BITMAP];
  struct fx_setting settings[FX_SETTINGS];
#if FX_SETS > 0
  uint8_t set_filled[FX_SETS];
  uint8_t sets[FX_SETS][FX_BITMAP];
#endif
  struct fx_step steps[FX_STEPS];
};

/* Time. A negative age is 0: a clock may be read late around its wrap. */
uint32_t fx_now(const struct fx_core *core);
uint32_t fx_age(const struct fx_core *core, uint32_t since);

/* fx_request.c */
void fx_request(struct fx_core *core, uint8_t type, uint16_t session, uint16_t number,
                uint32_t check, struct fx_in *in);
void fx_state_put(const struct fx_core *core, struct fx_out *out);
void fx_account_put(const struct fx_core *core, struct fx_out *out, uint16_t records);
void fx_refuse_aside(struct fx_core *core, uint8_t request, uint16_t session, uint16_t number,
                     uint16_t code, uint32_t detail);
/* fx_hello.c */
void fx_hello(struct fx_core *core, uint16_t session, uint16_t number, uint32_t check,
              struct fx_in *in);
void fx_welcome_put(const struct fx_core *core, struct fx_out *out);
/* fx_items.c: one item with tag and length. */
void fx_item_put(const struct fx_core *core, uint8_t item, struct fx_out *out);
uint8_t fx_item_total(const struct fx_core *core);
uint16_t fx_page(const struct fx_core *core, uint8_t first, struct fx_out *out);
int fx_config_check(const struct fx_config *config);
/* fx_declare.c */
uint16_t fx_declare(struct fx_core *core, struct fx_in *in, uint32_t *detail);
uint16_t fx_channels(struct fx_core *core, struct fx_in *in);
void fx_undeclare(struct fx_core *core);
uint32_t fx_declaration(const struct fx_core *core);
uint8_t fx_place(const struct fx_core *core, uint32_t channel);
/* fx_stream.c: the fault of 16.5 of a streamed message of this run, or 0. */
uint16_t fx_stream_take(struct fx_core *core, uint8_t type, struct fx_in *in);
void fx_stream(struct fx_core *core, uint8_t type, uint16_t number, struct fx_in *in);
void fx_program_clear(struct fx_core *core);
const struct fx_step *fx_step_at(const struct fx_core *core, uint32_t index);
/* fx_terminal.c: channels of a terminal, from a number on; FX_NO_MORE after the last. */
long fx_next(const struct fx_core *core, const struct fx_step *step, uint8_t bus, uint32_t from);
int fx_has(const struct fx_core *core, const struct fx_step *step, uint8_t bus, uint32_t channel);
uint32_t fx_count(const struct fx_core *core, const struct fx_step *step, uint8_t bus);
int fx_bit(const uint8_t *bits, uint32_t at);
void fx_bit_set(uint8_t *bits, uint32_t at, int on);
/* fx_check.c: a reason of 16.2, or 0. */
uint8_t fx_refusal(const struct fx_core *core, const struct fx_step *step);
int fx_apart(const struct fx_core *core, uint32_t index, uint8_t count);
const struct fx_range *fx_range_of(const struct fx_core *core, uint8_t kind);
void fx_learn(struct fx_core *core, const struct fx_step *step, const struct fx_meter *meter);
/* fx_answer.c */
uint32_t fx_answer(uint8_t kind, const struct fx_point *points, uint8_t n, int over);
int fx_ends(const struct fx_setting *setting, uint8_t n, uint64_t sum, int over);
uint8_t fx_brief(const struct fx_setting *setting, uint8_t n, uint64_t sum, int over);
int32_t fx_clamped(int64_t value);
/* fx_meter.c */
void fx_meter_begin(struct fx_core *core, uint8_t reader, const struct fx_step *step);
int fx_meter_run(struct fx_core *core, uint8_t reader); /* 1: went on */
int fx_meter_done(const struct fx_meter *meter);
void fx_meter_off(struct fx_core *core, uint8_t reader);
/* fx_scan.c */
void fx_run_begin(struct fx_core *core, uint32_t id, uint32_t first, uint32_t count,
                  uint32_t credit);
void fx_run_end(struct fx_core *core, uint8_t end, uint16_t detail);
void fx_safe(struct fx_core *core);
void fx_scan(struct fx_core *core);
void fx_run_forget(struct fx_core *core);
void fx_open_all(struct fx_core *core);
/* fx_close.c */
int fx_open_unwanted(struct fx_core *core);
int fx_close_wanted(struct fx_core *core);
/* fx_buses.c: the bus check; 1: went on, 2: finished. */
void fx_check_begin(struct fx_core *core);
int fx_check_run(struct fx_core *core);
/* fx_batch.c: puts a result in the frame of results; 0 when there is no room for it yet. */
int fx_store(struct fx_core *core, const struct fx_setting *setting, const struct fx_meter *meter,
             uint32_t took, uint32_t closures);
/* fx_send.c */
void fx_send(struct fx_core *core);
/* fx_inputs.c */
void fx_watch(struct fx_core *core);

#endif
