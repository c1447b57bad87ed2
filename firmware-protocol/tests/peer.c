/*
 * What the core makes of bytes, for whoever has another reader to compare with: bytes on standard
 * input, a line on standard output for whatever they complete.
 *
 *   O               too many bytes
 *   D               length, encoding or check
 *   F WIRE -        a frame that only a fixture sends
 *   F WIRE A TYPE SESSION NUMBER PAYLOAD   a request and its answer
 *   F WIRE S FAULT  a streamed message and what is wrong with it, 16.5; 0: nothing
 *
 * WIRE is the frame as this end would write it. HELLO begins anew with nothing declared and
 * nothing loaded; streamed messages are taken as those of a run from step 0 on that takes none.
 */
#include <stdio.h>
#include <string.h>

#include "fake.h"

#define LAST_STEP 1000000u

static struct fake fake;

static void hex(const uint8_t *bytes, size_t n) {
  size_t i;
  for (i = 0; i < n; i++) {
    printf("%02x", bytes[i]);
  }
}

static void begin(void) {
  fake_begin(&fake);
  fake.config.channels = FX_CHANNELS;
  fake.config.steps = FX_STEPS;
  fake.config.settings = FX_SETTINGS;
  fake.config.sets = FX_SETS;
  (void)fake_start(&fake);
}

/* The session that later requests belong to, whether HELLO opened one or not. */
static void open_session(void) {
  if (!fake.core.open) {
    fake_hello(&fake, 0x00010001u, 0, 0);
  }
  fake.session = (uint16_t)(fake.core.nonce & 0xFFFFu);
  fake.number = fake.core.cache.number;
  fake.core.run.last = LAST_STEP;
}

static void say_answer(void) {
  const struct fake_frame *f = &fake.frames[0];
  if (fake.count == 0) {
    printf(" A silence\n");
    return;
  }
  printf(" A %u %u %u ", f->type, f->session, f->number);
  hex(f->payload, f->n);
  printf("\n");
}

static void request(const uint8_t *raw, uint16_t n) {
  uint8_t type = raw[0];
  int is_hello = type == FX_HELLO;
  if (is_hello) {
    begin();
  }
  fake.count = 0;
  fake.taken = 0;
  fake_send(&fake, type, is_hello ? fx_get16(raw + 1) : fake.session,
            is_hello ? fx_get16(raw + 3) : ++fake.number, raw + FX_HEAD, n);
  say_answer();
  if (is_hello) {
    open_session();
  }
}

static void take(const struct fx_line *line) {
  uint8_t wire[FX_WIRE] = {0};
  size_t size;
  uint16_t n = (uint16_t)(line->n - FX_HEAD - 4u);
  uint8_t type = line->bytes[0];
  printf("F ");
  size = fx_cobs_encode(wire, line->bytes, line->n);
  hex(wire, size);
  if (type >= 0x80) {
    printf(" -\n");
  } else if (type >= 0x40) {
    struct fx_in in;
    fx_in_begin(&in, line->bytes + FX_HEAD, n);
    printf(" S %u\n", fx_stream_take(&fake.core, type, &in));
  } else {
    request(line->bytes, n);
  }
}

int main(void) {
  struct fx_line line;
  int byte;
  memset(&line, 0, sizeof line);
  begin();
  open_session();
  while ((byte = getchar()) != EOF) {
    enum fx_got got = fx_line_take(&line, (uint8_t)byte);
    if (got == FX_OVERSIZE || got == FX_DROPPED) {
      puts(got == FX_OVERSIZE ? "O" : "D");
    } else if (got == FX_GOT) {
      take(&line);
      fx_line_next(&line);
    }
  }
  return 0;
}
