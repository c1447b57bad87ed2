/*
 * libFuzzer's way in. The first byte chooses: raw bytes on the line, or payloads that are framed with
 * a good check, as else hardly anything would get past it. Whatever comes, what goes out must be
 * frames, nothing that was not declared may close, and the source keeps to its limits (M91).
 */
#include <stdlib.h>
#include <string.h>

#include "fake.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static struct fake fake;

static void expect(int holds) {
  if (!holds) {
    abort();
  }
}

/* What may be seen at the hardware, after every message. */
static void look(void) {
  const struct fx_drive *d = &fake.table.drive[0];
  uint32_t channel;
  uint8_t bus;
  int any = 0;
  for (bus = 0; bus < FX_BUSES; bus++) {
    for (channel = 0; channel < FX_CHANNELS; channel++) {
      if (fake.table.closed[bus][channel]) {
        any = 1;
        expect(channel < fake.config.channels && fx_place(&fake.core, channel) != 0);
      }
    }
  }
  expect(fake.bad == 0);
  expect(fake.moved_hot == 0);
  expect(fake.undeclared == 0);
  expect(fake.overdriven == 0);
  expect(fake.core.run.active || (!any && fake_is_open(&fake)));
  expect(fake.longest_on <= 510000);
  if (d->mode == FX_CURRENT) {
    expect(d->level <= 1000000000 && d->level >= -1000000000);
    expect(d->limit <= 100000000);
  }
  if (d->mode == FX_VOLTAGE && any) {
    expect(d->level <= 500000000 && d->level >= -500000000);
  }
  expect(fake.core.run.done <= fake.core.run.loaded);
  expect(fake.core.run.loaded - fake.core.run.done <= fake.config.steps);
  expect(fake.core.run.checked <= fake.core.run.done);
  fake.count = 0;
  fake.taken = 0;
}

static uint8_t next(const uint8_t **data, size_t *size) {
  if (*size == 0) {
    return 0;
  }
  --*size;
  return *(*data)++;
}

static void raw(const uint8_t *data, size_t size) {
  size_t i;
  for (i = 0; i < size; i++) {
    fx_receive(&fake.core, data[i]);
    fake.now += 50;
    fx_poll(&fake.core);
  }
  look();
}

/* Where the steps of a frame end, by their number and forms; their channels and slots are brought near
   those that exist. */
static uint16_t steps_length(uint8_t *payload) {
  uint16_t at = 9;
  uint8_t i;
  for (i = 0; i < payload[8] && at + 2 <= (int)FX_PAYLOAD; i++) {
    uint8_t bus;
    uint8_t form = payload[at + 1];
    at = (uint16_t)(at + 2);
    for (bus = 0; bus < FX_BUSES; bus++) {
      uint8_t code = (uint8_t)((form >> (2 * bus)) & 3);
      if ((code == 1 || code == 2) && at + 2 <= (int)FX_PAYLOAD) {
        payload[at] = (uint8_t)(payload[at] % 26);
        payload[at + 1] = 0;
        at = (uint16_t)(at + 2);
      }
    }
  }
  return at;
}

/* The length that a payload of a type has, as a fuzzer finds them slowly. */
static uint16_t length_of(uint8_t type, uint8_t *payload, uint16_t n) {
  switch (type) {
    case FX_HELLO:
      return 16;
    case FX_CAPABILITIES:
      return 1;
    case FX_CHANNELS_MESSAGE:
      return (uint16_t)(4 + (payload[2] + 256 * (payload[3] & 1) + 1) / 2);
    case FX_RUN:
      return 20;
    case FX_SETTING:
      return 42;
    case FX_STEPS_MESSAGE:
      return steps_length(payload);
    case FX_CREDIT:
      return 8;
    default:
      return n;
  }
}

/* Type, then how long until the next, then a length and a payload. The run's id and the index are
   put in where they belong, as a fuzzer does not guess 32 bits. */
static void framed(const uint8_t *data, size_t size) {
  while (size > 0) {
    uint8_t type = next(&data, &size);
    uint8_t pause = next(&data, &size);
    uint8_t payload[FX_PAYLOAD] = {0};
    uint16_t n = next(&data, &size);
    uint16_t i;
    n = n > FX_PAYLOAD ? FX_PAYLOAD : n;
    for (i = 0; i < n; i++) {
      payload[i] = next(&data, &size);
    }
    if ((pause & 4) == 0) {
      n = length_of(type, payload, n);
      n = n > FX_PAYLOAD ? FX_PAYLOAD : n;
    }
    if (type >= 0x40 && n >= 4 && (pause & 1) == 0) {
      struct fx_out out;
      fx_out_begin(&out, payload, n);
      fx_put32(&out, fake.core.run.id);
      if (type == FX_STEPS_MESSAGE && n >= 8) {
        fx_put32(&out, fake.core.run.loaded);
      }
    }
    if (type == FX_RUN && n == 20) {
      struct fx_out out;
      fx_out_begin(&out, payload + 16, 4);
      fx_put32(&out, fx_declaration(&fake.core));
    }
    if (type >= 0x40 && type < 0x80) {
      fake_send(&fake, type, fake.session, (uint16_t)(fake.core.run.heard + 1), payload, n);
    } else {
      fake_send(&fake, type, fake.session, ++fake.number, payload, n);
      if (fake.core.open) {
        fake.session = (uint16_t)(fake.core.nonce & 0xFFFFu);
      }
    }
    fake.inputs = (pause & 2) != 0 && pause > 250 ? FX_IN_LID_OPEN : 0;
    fake_run(&fake, pause < 128 ? pause * 100u : (pause - 100u) * 2000u);
    look();
  }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  static const uint8_t undeclared[] = {20, 0, 4, 0, 0, 0};
  uint8_t mode = next(&data, &size);
  fake_begin(&fake);
  fake.config.readers = 1;
  fake.step = 2000;
  fake.config.channels = 24;
  expect(fake_start(&fake) == 0);
  if ((mode & 2) != 0) {
    fake_hello(&fake, 0x5A1C9E37, 0, 0);
    fake_declare(&fake, (mode & 4) != 0 ? 4 : (mode & 8) != 0 ? 3 : 1);
    fake_ask(&fake, FX_CHANNELS_MESSAGE, undeclared, sizeof undeclared);
    if ((mode & 16) != 0) {
      struct fx_setting s = fake_kind((uint8_t)(mode >> 5));
      s.currents[0] *= 1 + next(&data, &size) % 100; /* 1 to 100 mA */
      fake_begin_run(&fake, 1, 0, 1000, 500);
      fake_setting(&fake, 0, &s);
      fake_step(&fake, 0, 0, 1, 2);
    }
    look();
  }
  if ((mode & 1) != 0) {
    raw(data, size);
  } else {
    framed(data, size);
  }
  /* After anything a valid request is answered. */
  fake.blocked = 0;
  fake_run(&fake, 1500000);
  look();
  expect(!fake.core.run.active); /* nobody has spoken for more than a second */
  fx_receive(&fake.core, 0);
  fx_poll(&fake.core);
  expect(fake_hello(&fake, 0x12345678, 1, 0) != NULL);
  expect(fake.core.open && fake.core.nonce == 0x12345678 && fake_is_open(&fake));
  return 0;
}
