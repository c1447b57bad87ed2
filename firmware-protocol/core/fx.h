/*
 * The fixture's side of the protocol of ../SPEC.md, for any processor: bytes and time in, bytes and
 * switches out. It allocates nothing and waits for nothing; call fx_poll for ever. Numbers such as
 * (M46) name the clauses of the specification.
 *
 * Not for use from several threads. Only fx_receive may be called from an interrupt.
 */
#ifndef FX_H
#define FX_H

#include <stddef.h>
#include <stdint.h>

#include "fx_limits.h"

/* One reading: volt in 10 nV, amp in 100 pA; a value that does not fit is clamped (M3). */
struct fx_point {
  int32_t volt;
  int32_t amp;
};

enum fx_bus { FX_FORCE_HIGH = 0, FX_FORCE_LOW = 1, FX_SENSE_HIGH = 2, FX_SENSE_LOW = 3, FX_BUSES = 4 };

/* Kinds of steps, section 10.1. */
enum fx_kind {
  FX_ALL_OPEN = 0,
  FX_RESIDUAL = 1,
  FX_RESIDUAL_LOADED = 2,
  FX_DISCHARGE = 3,
  FX_LOW_LEVEL = 4,
  FX_NORMAL_LEVEL = 5,
  FX_ISOLATION = 6,
  FX_JUNCTION = 7,
  FX_CHARGE = 8,
  FX_KINDS = 9
};

enum fx_mode {
  FX_OFF = 0,     /* nothing is driven */
  FX_CURRENT = 1, /* level is a current, limit the largest voltage */
  FX_VOLTAGE = 2, /* level is a voltage, limit the largest current */
  FX_LOAD = 3,    /* 5 to 20 kilohm across the terminals, nothing driven */
  FX_DRAIN = 4,   /* the discharge resistor across the terminals, nothing driven */
  FX_PROBE = 5    /* level is a voltage between buses high and low, limit the largest current */
};

/* What the source does from now on. Level and limit are in 10 nV and 100 pA. */
struct fx_drive {
  uint8_t mode; /* enum fx_mode */
  uint8_t high; /* enum fx_bus; with FX_PROBE only */
  uint8_t low;
  int32_t level;
  int32_t limit;
  /* After this many microseconds hardware that can should switch the source off by itself; 0: no
     limit, as nothing is driven. The core does it too, at its next poll (M57). */
  uint32_t most_us;
};

/* Bits of what the inputs say; each is read raw, the core debounces. */
enum fx_input {
  FX_IN_LID_OPEN = 1,
  FX_IN_BUTTON = 2,
  FX_IN_LINE_LOST = 4, /* nobody can be at the other end; leave it 0 where the port cannot tell */
  FX_IN_BROWN_OUT = 8
};

/* What is broken, section 16.6. */
enum fx_fault {
  FX_FAULT_NONE = 0,
  FX_FAULT_UNKNOWN = 1,
  FX_FAULT_CONVERTER = 2,
  FX_FAULT_DRIVER = 3,
  FX_FAULT_SUPPLY = 4,
  FX_FAULT_HOT = 5,
  FX_FAULT_CALIBRATION = 6,
  FX_FAULT_MEMORY = 7
};

/* The hardware. Every call returns at once; none may be left out. */
struct fx_hal {
  void *ctx; /* given back with each call */
  /* Microseconds of a free-running clock, modulo 2^32; it never goes back. */
  uint32_t (*now)(void *ctx);
  /* Takes up to n bytes for the line and says how many. */
  uint16_t (*send)(void *ctx, const uint8_t *bytes, uint16_t n);
  /* Source off, every switch open: the safe state. */
  void (*all_open)(void *ctx);
  /* Opens (0) or closes (1) one channel on one bus, now or at the next latch. 0: done; else the
     driver has failed. */
  int (*move)(void *ctx, uint8_t bus, uint16_t channel, uint8_t closed);
  /* What was moved takes effect. 0: done; else the driver has failed. */
  int (*latch)(void *ctx);
  /* Chooses the range for a kind of step; the source is off. 0: done; else the driver has failed. */
  int (*range)(void *ctx, uint8_t reader, uint8_t kind);
  void (*drive)(void *ctx, uint8_t reader, const struct fx_drive *drive);
  /* Begins a reading of volt and ampere together; averaged over window_us if that is not 0, with
     the voltage at its end. */
  void (*start)(void *ctx, uint8_t reader, uint32_t window_us);
  /* 1: the reading is there; 0: not yet; below 0: the converter has failed. */
  int (*read)(void *ctx, uint8_t reader, struct fx_point *point);
  uint8_t (*inputs)(void *ctx); /* bits of enum fx_input */
  uint8_t (*health)(void *ctx); /* enum fx_fault */
  void (*kick)(void *ctx);      /* feeds the watchdog, which is independent and bites within 2 s (M83) */
};

/* A kind of step that can be measured; 8.2, range. */
struct fx_range {
  uint8_t kind;           /* enum fx_kind */
  int32_t current;        /* largest current, 100 pA; above 0. No default */
  int32_t compliance;     /* largest voltage, 10 nV; above 0. No default */
  uint32_t gain;          /* standard uncertainty of the scale, 10^-9. Default 0: unknown */
  uint32_t offset;        /* of the zero of one reading, nV. Default 0 */
  uint32_t noise;         /* of one voltage reading, nV. Default 0 */
  uint32_t current_noise; /* of one current reading, pA. Default 0 */
  uint32_t time_us;       /* one point with its settling, 1 to 500,000. No default */
  uint32_t settle_us;     /* between a change of the source and a reading, 0 to time_us. Default 0 */
};

/* Channels first to first + count - 1 and their bank, or the bits of the buses they reach. */
struct fx_span {
  uint16_t first;
  uint16_t count;
  uint16_t value;
};

/* What this fixture is. It must live as long as the core. */
struct fx_config {
  const char *identity;    /* this very fixture, 1 to 64 bytes of UTF-8. No default */
  const char *build_text;  /* the firmware in words, the same. No default */
  const char *calibration; /* id of the calibration in force, the same. No default */
  uint64_t build;          /* first 64 bits of a hash of the image. Default 0 */
  uint64_t boot;           /* another value at every start, below 2^63 (M24). No default */
  uint8_t reset_cause;     /* 16.4. Default 0: unknown */
  uint16_t channels;       /* 1 to FX_CHANNELS. Default FX_CHANNELS */
  uint16_t steps;          /* 16 to FX_STEPS. Default FX_STEPS */
  uint8_t settings;        /* 8 to FX_SETTINGS. Default FX_SETTINGS */
  uint8_t sets;            /* 0, or 4 to FX_SETS. Default FX_SETS */
  uint8_t points;          /* 1 to FX_POINTS. Default FX_POINTS */
  int32_t clamp;           /* where the protection holds the buses, 10 nV; above 0. No default */
  uint32_t power_mw;       /* power budget of closed channels, mW. Default 0: none */
  uint32_t channel_mw;     /* what one closed channel takes, mW. Default 0: nothing */
  uint8_t switching;       /* 0 multiplexer, 1 rest to guard, 2 matrix, 3 hand. Default 0 */
  uint8_t kelvin;          /* 0 two wires, 1 behind the probe, 2 two tips. Default 0 */
  uint16_t banks;          /* at least 1. Default 1 */
  uint16_t readers;        /* 1 to FX_READERS. Default 1 */
  uint16_t most_high;      /* channels on force-high at once, at least 1. Default 1 */
  uint16_t most_low;       /* the same for force-low. Default 1 */
  const struct fx_range *ranges; /* one for each kind at most. No default */
  uint8_t range_count;           /* 0 to 9. Default 0 */
  uint32_t path_high_uohm; /* of a closed switch to a high bus, microohm. Default 0 */
  uint32_t path_low_uohm;  /* to a low bus. Default 0 */
  uint32_t path_sd_uohm;   /* unknown part of it. Default 0 */
  uint32_t leakage_fa;     /* of one open channel, fA. Default 0 */
  uint32_t operate_ns;     /* from command to settled contact, 0 to 1 s. No default */
  uint32_t release_ns;     /* from command to open, 0 to 50 ms. No default */
  uint32_t probe_uohm;     /* probe and contact, microohm. Default 0 */
  uint32_t probe_sd_uohm;  /* its spread. Default 0 */
  uint32_t closures;       /* rated closures of a switch; 0: it does not wear. Default 0 */
  const struct fx_span *bank_spans; /* value: bank. Default none: dealt in order */
  uint8_t bank_span_count;          /* 0 to 100. Default 0 */
  const struct fx_span *bus_spans; /* value: bits 1 << enum fx_bus. Default none: all reach all */
  uint8_t bus_span_count;          /* 0 to 100. Default 0 */
  uint8_t has_lid;         /* 1: there is a lid switch, 0: none. Default 0 */
  uint32_t debounce_us;    /* a contact rests this long before it counts, up to 40 ms. Default 20,000 */
  int32_t check_volt;      /* of the bus check, 10 nV, up to 50 mV. Default 5,000,000 */
  int32_t check_amp;       /* most current of it, 100 pA, up to 10 mA. Default 10,000,000 */
  uint32_t check_settle_us; /* between source and reading of a pair, up to 5 ms; release_ns and six pairs
                               for each reader have 50 ms together (M77). Default 500 */
  int32_t live_volt;       /* a step is refused with LIVE above it, 10 nV; 0: not looked at. Default 0 */
  uint32_t convert_us;     /* a reading that takes longer, window apart, is a dead converter, 1 us to
                              100 ms. Default 5,000 */
};

struct fx_core;

/* Bytes that a core takes, for ports that do not see its inside. */
size_t fx_size(void);

/*
 * Begins: safe state first, then silence until a host speaks (M19, M82).
 * Returns 0, or the number of the first member of the configuration that is out of range, counted
 * from 1 in the order above; then nothing else may be called.
 */
int fx_init(struct fx_core *core, const struct fx_config *config, const struct fx_hal *hal);

/* One byte from the line. From an interrupt or from the loop, but not from both. */
void fx_receive(struct fx_core *core, uint8_t byte);

/* Room for received bytes; a port with flow control of its own feeds no more than this. */
uint16_t fx_room(const struct fx_core *core);

/* Does what is due and returns. Call it at least every 2 ms. */
void fx_poll(struct fx_core *core);

/* 1: nothing is due before the next byte, input or millisecond; the port may sleep so long. */
int fx_is_idle(const struct fx_core *core);

/* A fault that the port found. The run ends, RUN is refused until the next start (M84). */
void fx_fail(struct fx_core *core, uint8_t fault);

#endif
