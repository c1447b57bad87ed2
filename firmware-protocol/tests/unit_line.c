/* Sessions, requests, the stream and records: what is said on the line. */
#include <string.h>

#include "cases.h"

static void nothingIsSaidBeforeTheFirstHello(void) {
  started();
  fake_run(&fake, 300000);
  CHECK_EQUAL(fake.count, 0);
  CHECK(fake.all_open >= 1);
  CHECK(fake_is_open(&fake));
}

static void aConfigurationOutOfRangeIsNamed(void) {
  fake_begin(&fake);
  fake.config.channels = 0;
  CHECK_EQUAL(fake_start(&fake), 7);
  fake_begin(&fake);
  fake.config.identity = "";
  CHECK_EQUAL(fake_start(&fake), 1);
  fake_begin(&fake);
  fake.config.convert_us = 0;
  CHECK_EQUAL(fake_start(&fake), 42);
}

static void requestsWithoutSessionAreRefused(void) {
  const struct fake_frame *f;
  started();
  f = fake_ask(&fake, FX_STATUS, NULL, 0);
  CHECK(f != NULL && f->type == FX_REFUSED && fx_get16(f->payload + 1) == FX_NO_SESSION);
  f = fake_hello(&fake, 0x10001, 0, 0);
  CHECK(f != NULL && f->type == FX_WELCOME && f->n == 60 && f->session == 1);
}

static void anAnswerIsRepeatedByteByByte(void) {
  const struct fake_frame *a;
  const struct fake_frame *b;
  started();
  fake_hello(&fake, 0x10001, 0, 0);
  a = fake_ask(&fake, FX_STATUS, NULL, 0);
  fake.now += 1000;
  fake_send(&fake, FX_STATUS, fake.session, fake.number, NULL, 0);
  b = fake_next(&fake, FX_STATE);
  CHECK(a != NULL && b != NULL && memcmp(a->payload, b->payload, a->n) == 0);
}

static void everyCapabilityComesOnSomePage(void) {
  uint8_t first = 0;
  uint32_t crc = FX_CRC_START;
  const struct fake_frame *f = NULL;
  started();
  f = fake_hello(&fake, 0x10001, 0, 0);
  {
    uint32_t check = fx_get32(f->payload + 52);
    for (;;) {
      uint16_t at = 2;
      f = fake_ask(&fake, FX_CAPABILITIES, &first, 1);
      CHECK(f != NULL);
      if (f == NULL || f->type != FX_PAGE) {
        break;
      }
      for (; at < f->n; first++) {
        crc = fx_crc(crc, f->payload + at, 2u + f->payload[at + 1]);
        at = (uint16_t)(at + 2 + f->payload[at + 1]);
      }
    }
    CHECK_EQUAL(f != NULL ? fx_get16(f->payload + 1) : 0, FX_BAD_VALUE);
    CHECK_EQUAL(first, 16);
    CHECK_EQUAL((uint32_t)~crc, check);
  }
}

static void aSecondHostIsToldBusyUnlessItTakesOver(void) {
  const struct fake_frame *f;
  running(0, 100, 100);
  fake_run(&fake, 50000);
  f = fake_hello(&fake, 0x20002, 0, 0);
  CHECK(f != NULL && f->type == FX_REFUSED && fx_get16(f->payload + 1) == FX_BUSY);
  CHECK(f != NULL && fx_get32(f->payload + 3) >= 45 && fx_get32(f->payload + 3) <= 60);
  CHECK_EQUAL(fake.core.run.active, 1);
  f = fake_hello(&fake, 0x30003, 0, 0x5A1C9E37);
  CHECK(f != NULL && f->type == FX_WELCOME);
  CHECK_EQUAL(fake.core.declared, 0);
  fake_run(&fake, 100000);
  CHECK(fake_next(&fake, FX_END) == NULL);
}

static void nothingIsBegunWithoutCredit(void) {
  struct fx_setting s = fake_kind(FX_RESIDUAL);
  uint8_t credit[] = {1, 0, 0, 0, 2, 0, 0, 0};
  const struct fake_frame *f;
  running(0, 3, 1);
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 1, 2);
  fake_step(&fake, 1, 0, 1, 3);
  fake_run(&fake, 30000);
  CHECK_EQUAL(fake.core.run.done, 1);
  f = fake_ask(&fake, FX_STATUS, NULL, 0);
  CHECK(f != NULL && f->payload[0] == 3);
  fake_run(&fake, 70000);
  CHECK(fake_is_open(&fake)); /* (M69) */
  fake_stream(&fake, FX_CREDIT, credit, sizeof credit);
  fake_run(&fake, 30000);
  CHECK_EQUAL(fake.core.run.done, 2);
  f = fake_ask(&fake, FX_STATUS, NULL, 0);
  CHECK(f != NULL && f->payload[0] == 2);
}

static void aGapInTheStreamIsComplainedAboutOnceIn20Milliseconds(void) {
  uint8_t credit[] = {1, 0, 0, 0, 2, 0, 0, 0};
  const struct fake_frame *f;
  int i;
  int count = 0;
  running(0, 3, 1);
  fake_run(&fake, 30000);
  fake.taken = fake.count;
  for (i = 0; i < 8; i++) {
    fake_send(&fake, FX_CREDIT, fake.session, 5, credit, sizeof credit);
    fake_run(&fake, 1000);
  }
  f = fake_next(&fake, FX_HEARD);
  CHECK(f != NULL && f->payload[6] == 1 && fx_get16(f->payload + 4) == 0);
  for (; f != NULL; f = fake_next(&fake, FX_HEARD)) {
    count++;
  }
  CHECK_EQUAL(count, 1);
  CHECK_EQUAL(fake.core.run.credit, 1);
}

static void aTakenFrameIsHeardWithin25Milliseconds(void) {
  uint8_t credit[] = {1, 0, 0, 0, 2, 0, 0, 0};
  const struct fake_frame *f;
  running(0, 3, 1);
  fake_run(&fake, 100000);
  fake_stream(&fake, FX_CREDIT, credit, sizeof credit);
  fake_run(&fake, 25000);
  f = fake_next(&fake, FX_HEARD);
  CHECK(f != NULL && fx_get16(f->payload + 4) == 1 && f->payload[6] == 0);
}

static void recordsComeInOrderOverALineThatTakesOneByteAtATime(void) {
  struct fx_setting s = fake_kind(FX_RESIDUAL);
  uint32_t i;
  uint32_t next = 0;
  uint16_t number = 1;
  running(0, 60, 60);
  fake.gulp = 3;
  fake_setting(&fake, 0, &s);
  for (i = 0; i < 60; i++) {
    fake_step(&fake, i, 0, 1, 2);
    fake_run(&fake, 4000);
    fake_send(&fake, FX_STATUS, fake.session, ++fake.number, NULL, 0);
  }
  fake_run(&fake, 300000);
  fake.taken = 0;
  for (i = 0; i < (uint32_t)fake.count; i++) {
    const struct fake_frame *f = &fake.frames[i];
    if (f->type == FX_RESULTS) {
      CHECK_EQUAL(fx_get32(f->payload + 6), next);
      next += f->payload[22];
    }
    if (f->type >= 0xC0 && f->number != 0) {
      CHECK_EQUAL(f->number, number);
      number++;
    }
  }
  CHECK_EQUAL(next, 60);
  CHECK_EQUAL(fake.bad, 0);
}

static void noiseIsCountedAndDoesNoHarm(void) {
  const struct fake_frame *f;
  uint32_t i;
  started();
  fake_hello(&fake, 0x10001, 0, 0);
  for (i = 0; i < 600; i++) {
    fx_receive(&fake.core, (uint8_t)(i * 7 + 1 == 0 ? 1 : i * 7 + 1));
    fx_poll(&fake.core);
  }
  fx_receive(&fake.core, 0);
  fx_poll(&fake.core);
  f = fake_ask(&fake, FX_STATUS, NULL, 0);
  CHECK(f != NULL && f->type == FX_STATE);
  for (i = 0; i < FX_RING + 10; i++) {
    fx_receive(&fake.core, 1);
  }
  CHECK_EQUAL(fake.core.overrun, 10);
}

static void theIdOfTheRunBeforeIsRefused(void) {
  const struct fake_frame *f;
  running(0, 1, 0);
  fake_ask(&fake, FX_STOP, NULL, 0);
  fake_run(&fake, 60000);
  f = fake_begin_run(&fake, 1, 0, 1, 0);
  CHECK(f != NULL && f->type == FX_REFUSED && fx_get16(f->payload + 1) == FX_BAD_VALUE);
  f = fake_begin_run(&fake, 2, 0, 1, 0);
  CHECK(f != NULL && f->type == FX_STATE);
}

static void creditNeverShrinks(void) {
  uint8_t credit[] = {1, 0, 0, 0, 2, 0, 0, 0};
  running(0, 9, 5);
  fake_stream(&fake, FX_CREDIT, credit, sizeof credit);
  CHECK_EQUAL(fake.core.run.heard, 1);
  CHECK_EQUAL(fake.core.run.credit, 5);
}

static void briefStepsAndOthersShareNoFrame(void) {
  struct fx_setting s = fake_kind(FX_RESIDUAL);
  const struct fake_frame *f;
  running(0, 3, 3);
  fake_setting(&fake, 0, &s);
  s.brief = 1;
  fake_setting(&fake, 1, &s);
  fake_step(&fake, 0, 0, 1, 2);
  fake_step(&fake, 1, 1, 1, 2);
  fake_step(&fake, 2, 0, 1, 2);
  f = after(100000, FX_RESULTS);
  CHECK(f != NULL && f->payload[22] == 1);
  f = fake_next(&fake, FX_BITS);
  CHECK(f != NULL && fx_get32(f->payload + 6) == 1 && fx_get16(f->payload + 22) == 1);
  f = fake_next(&fake, FX_RESULTS);
  CHECK(f != NULL && fx_get32(f->payload + 6) == 2 && f->payload[22] == 1);
}

void line_cases(void) {
  nothingIsSaidBeforeTheFirstHello();
  aConfigurationOutOfRangeIsNamed();
  requestsWithoutSessionAreRefused();
  anAnswerIsRepeatedByteByByte();
  everyCapabilityComesOnSomePage();
  aSecondHostIsToldBusyUnlessItTakesOver();
  nothingIsBegunWithoutCredit();
  aGapInTheStreamIsComplainedAboutOnceIn20Milliseconds();
  aTakenFrameIsHeardWithin25Milliseconds();
  recordsComeInOrderOverALineThatTakesOneByteAtATime();
  noiseIsCountedAndDoesNoHarm();
  theIdOfTheRunBeforeIsRefused();
  creditNeverShrinks();
  briefStepsAndOthersShareNoFrame();
}
