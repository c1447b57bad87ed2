/* What the core does at its line and its switches, with a fixture that can fail by name. */
#include <string.h>

#include "check.h"
#include "fake.h"

static struct fake fake;

static void started(void) {
  fake_begin(&fake);
  CHECK_EQUAL(fake_start(&fake), 0);
}

static void declared(uint8_t class_of) {
  started();
  fake_hello(&fake, 0x5A1C9E37, 0, 0);
  fake_declare(&fake, class_of);
}

static void running(uint32_t first, uint32_t count, uint32_t credit) {
  const struct fake_frame *f;
  declared(1);
  f = fake_begin_run(&fake, 1, first, count, credit);
  CHECK(f != NULL && f->type == FX_STATE);
  CHECK(f != NULL && f->payload[0] == 1);
  /* Loaded, done and checked begin where the run does. */
  CHECK(f != NULL && fx_get32(f->payload + 31) == first && fx_get32(f->payload + 35) == first);
  CHECK(f != NULL && fx_get32(f->payload + 43) == first);
}

static void resistor(uint16_t a, uint16_t b, double ohm) {
  struct table_resistor *r = &fake.table.resistor[fake.table.resistors++];
  r->a = a;
  r->b = b;
  r->ohm = ohm;
}

/* RESULTS or END, whichever is asked for, after some time. */
static const struct fake_frame *after(uint32_t us, uint8_t type) {
  uint32_t i;
  /* The host says that it is alive. */
  for (i = 0; i < us; i += 200000) {
    fake_run(&fake, us - i < 200000 ? us - i : 200000);
    fake_send(&fake, FX_STATUS, fake.session, ++fake.number, NULL, 0);
  }
  return fake_next(&fake, type);
}

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

static void resistanceIsReadInFourLegs(void) {
  struct fx_setting s = fake_kind(FX_LOW_LEVEL);
  const struct fake_frame *f;
  running(5, 2, 100);
  resistor(3, 4, 0.07);
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 5, 0, 3, 4);
  fake_step(&fake, 6, 0, 3, 5);
  f = after(100000, FX_CHECK);
  CHECK(f != NULL && f->number == 1 && f->payload[10] == 0 && fx_get32(f->payload + 6) == 5);
  f = fake_next(&fake, FX_RESULTS);
  CHECK(f != NULL);
  if (f != NULL) {
    CHECK_EQUAL(fx_get32(f->payload + 6), 5);
    CHECK_EQUAL(f->payload[22], 2);
    CHECK_EQUAL(f->payload[23], 1);
    CHECK_EQUAL((int32_t)fx_get32(f->payload + 24), 7000);
    CHECK_EQUAL((int32_t)fx_get32(f->payload + 28), 10000000);
    CHECK_EQUAL(f->payload[32] >> 5, FX_OVER);
    CHECK_EQUAL(fx_get32(f->payload + 18), 3); /* closures: the second step keeps channel 3 */
  }
  f = fake_next(&fake, FX_CHECK);
  CHECK(f != NULL && fx_get32(f->payload + 6) == 7);
  f = fake_next(&fake, FX_END);
  CHECK(f != NULL && f->payload[6] == FX_DONE && fx_get32(f->payload + 21) == 7);
  CHECK(f != NULL && fx_get16(f->payload + 25) == f->number);
  CHECK(fake_is_open(&fake));
  CHECK_EQUAL(fake.moved_hot, 0);
  CHECK_EQUAL(fake.most_closed, 2);
  CHECK_EQUAL(fake.undeclared, 0);
  CHECK_EQUAL(fake.bad, 0);
}

static void stepsOfATerminalOfManyChannelsCloseThemAll(void) {
  struct fx_setting s = fake_kind(FX_RESIDUAL);
  uint8_t set[] = {1, 0, 0, 0, 0, 0, 0, 0, 0xF0, 0x01};
  uint8_t step[] = {1, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0x0D, 9, 0};
  running(0, 1, 1);
  fake_setting(&fake, 0, &s);
  fake_stream(&fake, FX_SET, set, sizeof set);
  fake_stream(&fake, FX_STEPS_MESSAGE, step, sizeof step);
  CHECK(after(60000, FX_END) != NULL);
  CHECK_EQUAL(fake.most_closed, 40); /* rest: all of them, and no other */
}

static void aStepOverItsCeilingIsRefusedAndNothingCloses(void) {
  struct fx_setting s = fake_kind(FX_LOW_LEVEL);
  const struct fake_frame *f;
  running(0, 1, 1);
  s.voltage = 2000001;
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 1, 2);
  f = after(60000, FX_RESULTS);
  CHECK(f != NULL && f->payload[23] == FX_REFUSED_STEP << 5 && f->payload[24] == FX_OVER_VOLTAGE);
  CHECK_EQUAL(fake.most_closed, 0);
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

static void silenceOpensEverythingAfterASecond(void) {
  struct fx_setting s = fake_kind(FX_DISCHARGE);
  const struct fake_frame *f;
  running(0, 3, 3);
  s.dwell = 9000000;
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 1, 2);
  fake_run(&fake, 950000);
  CHECK(!fake_is_open(&fake));
  CHECK_EQUAL(fake.core.run.active, 1);
  fake_run(&fake, 60000);
  CHECK(fake_is_open(&fake));
  f = fake_next(&fake, FX_END);
  CHECK(f != NULL && f->payload[6] == FX_HOST_SILENT);
}

static void aHostThatDiesWithAFullLineDoesNotKeepTheNextOneOut(void) {
  const struct fake_frame *f;
  running(0, 3, 3);
  fake.blocked = 1;
  fake_run(&fake, 3000000);
  fake.blocked = 0;
  f = fake_hello(&fake, 0x20002, 0, 0);
  CHECK(f != NULL && f->type == FX_WELCOME);
}

static void theLidEndsTheRunAndTheDeclaration(void) {
  struct fx_setting s = fake_kind(FX_DISCHARGE);
  const struct fake_frame *f;
  running(0, 3, 3);
  s.dwell = 9000000;
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 1, 2);
  fake_run(&fake, 20000);
  CHECK(!fake_is_open(&fake));
  fake.inputs = FX_IN_LID_OPEN;
  fake_run(&fake, 1000);
  CHECK(fake_is_open(&fake));
  fake_run(&fake, 40000);
  f = fake_next(&fake, FX_END);
  CHECK(f != NULL && f->payload[6] == FX_LID_OPENED);
  f = fake_next(&fake, FX_EVENT);
  CHECK(f != NULL && f->payload[0] == 1 && fx_get32(f->payload + 1) == 1);
  f = fake_begin_run(&fake, 2, 0, 1, 1);
  CHECK(f != NULL && f->type == FX_REFUSED && fx_get16(f->payload + 1) == FX_LID_OPEN);
  fake.inputs = 0;
  fake_run(&fake, 10000);
  fake.inputs = FX_IN_LID_OPEN; /* it bounces */
  fake_run(&fake, 5000);
  fake.inputs = 0;
  fake_run(&fake, 15000);
  CHECK(fake_next(&fake, FX_EVENT) == NULL);
  fake_run(&fake, 10000);
  f = fake_next(&fake, FX_EVENT);
  CHECK(f != NULL && f->payload[0] == 2 && fx_get32(f->payload + 1) == 1);
  f = fake_begin_run(&fake, 2, 0, 1, 1);
  CHECK(f != NULL && f->type == FX_REFUSED && fx_get16(f->payload + 1) == FX_NOT_DECLARED);
}

static void aStuckLidSwitchKeepsRunsOut(void) {
  const struct fake_frame *f;
  fake_begin(&fake);
  fake.inputs = FX_IN_LID_OPEN;
  CHECK_EQUAL(fake_start(&fake), 0);
  fake_hello(&fake, 0x10001, 0, 0);
  fake_declare(&fake, 1);
  CHECK_EQUAL(fake.core.declared, 0);
  f = fake_begin_run(&fake, 1, 0, 1, 1);
  CHECK(f != NULL && f->type == FX_REFUSED && fx_get16(f->payload + 1) == FX_LID_OPEN);
}

static void stopIsObeyedFromAnybodyAndAnsweredAfterEnd(void) {
  const struct fake_frame *f;
  int end;
  running(0, 3, 3);
  fake_run(&fake, 50000);
  fake.taken = fake.count;
  fake_send(&fake, FX_STOP, 0x7777, 99, (const uint8_t *)"x", 1);
  CHECK(fake_is_open(&fake));
  CHECK_EQUAL(fake.core.run.active, 0);
  fake_run(&fake, 60000);
  CHECK(fake_next(&fake, FX_CHECK) != NULL);
  f = fake_next(&fake, FX_END);
  CHECK(f != NULL && f->payload[6] == FX_STOPPED);
  end = fake.taken;
  f = fake_next(&fake, FX_REFUSED);
  CHECK(f != NULL && fake.taken > end && fx_get16(f->payload + 1) == FX_NO_SESSION);
}

static void faultEndsTheRun(enum fake_failure failure, uint8_t end, uint16_t detail) {
  struct fx_setting s = fake_kind(FX_LOW_LEVEL);
  const struct fake_frame *f;
  running(0, 3, 3);
  fake_run(&fake, 30000);
  fake.failure = failure;
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 1, 2);
  fake_step(&fake, 1, 0, 1, 2);
  fake_step(&fake, 2, 0, 1, 2);
  fake_run(&fake, 100000);
  CHECK(fake_is_open(&fake));
  f = fake_next(&fake, FX_END);
  CHECK(f != NULL && f->payload[6] == end);
  CHECK(f != NULL && fx_get16(f->payload + 7) == detail);
  fake.failure = FAKE_SOUND;
  if (end == FX_FAULT_END) {
    f = fake_begin_run(&fake, 2, 0, 1, 1);
    CHECK(f != NULL && f->type == FX_REFUSED && fx_get16(f->payload + 1) == FX_FAULTY);
    CHECK(f != NULL && fx_get32(f->payload + 3) == detail);
  }
}

static void faultsOpenEverythingAndAreRemembered(void) {
  faultEndsTheRun(FAKE_DEAD_ADC, FX_FAULT_END, FX_FAULT_CONVERTER);
  faultEndsTheRun(FAKE_BROKEN_ADC, FX_FAULT_END, FX_FAULT_CONVERTER);
  faultEndsTheRun(FAKE_STUCK_RELAY, FX_FAULT_END, FX_FAULT_DRIVER);
  faultEndsTheRun(FAKE_HOT, FX_FAULT_END, FX_FAULT_HOT);
  faultEndsTheRun(FAKE_WELDED, FX_BUS_CHECK, 0);
}

static void aConverterThatReadsZeroFailsTheFirstBusCheck(void) {
  declared(1);
  fake.failure = FAKE_STUCK_AT_ZERO;
  fake_begin_run(&fake, 1, 0, 3, 3);
  fake_run(&fake, 50000);
  CHECK_EQUAL(fake.core.fault, FX_FAULT_CONVERTER);
  CHECK(fake_is_open(&fake));
}

static void fiveVoltNeedAProof(void) {
  struct fx_setting junction = fake_kind(FX_JUNCTION);
  struct fx_setting isolation = fake_kind(FX_ISOLATION);
  const struct fake_frame *f;
  declared(4);
  fake_begin_run(&fake, 1, 0, 3, 3);
  junction.voltage = 90000000;
  junction.currents[0] = 100000;
  isolation.voltage = 500000000;
  fake_setting(&fake, 0, &junction);
  fake_setting(&fake, 1, &isolation);
  fake_step(&fake, 0, 1, 1, 2);
  fake_step(&fake, 1, 0, 1, 2);
  fake_step(&fake, 2, 1, 1, 2);
  f = after(100000, FX_RESULTS);
  CHECK(f != NULL);
  if (f != NULL) {
    CHECK_EQUAL(f->payload[23] >> 5, FX_REFUSED_STEP);
    CHECK_EQUAL(f->payload[24], FX_NOT_BARE);
    CHECK_EQUAL(f->payload[25], FX_OVER << 5 | 2);
    CHECK_EQUAL(f->payload[42] >> 5, FX_MEASURED);
  }
}

static void theSourceOfAJunctionNeverStaysOnFor20Milliseconds(void) {
  struct fx_setting s = fake_kind(FX_JUNCTION);
  running(0, 2, 2);
  s.voltage = 100000000;
  s.dwell = 20000;
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 1, 2);
  fake_step(&fake, 1, 0, 1, 2);
  CHECK(after(150000, FX_END) != NULL);
  CHECK_EQUAL(fake.core.fault, 0);
  CHECK(fake.longest_on >= 19500 && fake.longest_on <= 20000);
}

static void briefStepsGiveTwoBitsEach(void) {
  struct fx_setting s = fake_kind(FX_LOW_LEVEL);
  const struct fake_frame *f;
  uint32_t i;
  running(0, 5, 5);
  s.brief = 1;
  s.limit = 100000;
  resistor(1, 2, 0.07);
  resistor(1, 3, 0.2);
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 1, 2);
  fake_step(&fake, 1, 0, 1, 3);
  fake_step(&fake, 2, 0, 1, 4);
  fake_step(&fake, 3, 0, 1, 1);
  fake_step(&fake, 4, 0, 2, 1);
  f = after(100000, FX_BITS);
  CHECK(f != NULL && fx_get16(f->payload + 22) == 5 && f->n == 26);
  CHECK(f != NULL && f->payload[24] == 0xD4 && f->payload[25] == 0);
  for (i = 0; i < 1; i++) {
    CHECK(fake_next(&fake, FX_END) != NULL);
  }
}

static void theBusesAreCheckedEvery64Configurations(void) {
  struct fx_setting s = fake_kind(FX_RESIDUAL);
  const struct fake_frame *f;
  uint32_t i;
  int checks = 0;
  running(0, 130, 130);
  fake_setting(&fake, 0, &s);
  for (i = 0; i < 130; i++) {
    fake_step(&fake, i, 0, 1, (uint16_t)(2 + i % 30));
    fake_run(&fake, 4000);
    if (i % 40 == 0) {
      fake_send(&fake, FX_STATUS, fake.session, ++fake.number, NULL, 0);
    }
  }
  fake_run(&fake, 100000);
  for (f = fake_next(&fake, FX_CHECK); f != NULL; f = fake_next(&fake, FX_CHECK)) {
    static const uint32_t upto[] = {0, 64, 128, 130};
    CHECK(checks < 4 && fx_get32(f->payload + 6) == upto[checks]);
    checks++;
  }
  CHECK_EQUAL(checks, 4);
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

static void theClockMayTurnOverInARun(void) {
  struct fx_setting s = fake_kind(FX_RESIDUAL);
  const struct fake_frame *f;
  fake_begin(&fake);
  fake.now = 0xFFFFFFFFu - 30000;
  CHECK_EQUAL(fake_start(&fake), 0);
  fake_hello(&fake, 0x5A1C9E37, 0, 0);
  fake_declare(&fake, 1);
  fake_begin_run(&fake, 1, 0, 20, 20);
  fake_setting(&fake, 0, &s);
  fake_run(&fake, 20000);
  fake_step(&fake, 0, 0, 1, 2);
  fake_run(&fake, 100000);
  f = fake_ask(&fake, FX_STATUS, NULL, 0);
  CHECK(f != NULL && f->payload[0] == 2);
  CHECK_EQUAL(fake.core.run.done, 1);
}

static void aClockThatIsReadLateDoesNotLookLikeSilence(void) {
  running(0, 3, 3);
  fake.now -= 900; /* a timer's wrap whose interrupt is still pending */
  fx_poll(&fake.core);
  CHECK_EQUAL(fake.core.run.active, 1);
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

static void stepsThatCannotBeJoinedAreEachRefused(void) {
  struct fx_setting s = fake_kind(FX_RESIDUAL);
  const struct fake_frame *f;
  running(0, 4, 4);
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0x80, 1, 2);
  fake_step(&fake, 1, 0x80, 11, 12);
  fake_step(&fake, 2, 0x80, 21, 22);
  fake_step(&fake, 3, 0x80, 31, 32);
  f = after(100000, FX_RESULTS);
  CHECK(f != NULL && f->payload[22] == 4);
  if (f != NULL && f->payload[22] == 4) {
    /* The fake has two readers; the last step of a run ends what is joined. */
    CHECK_EQUAL(f->payload[23], FX_REFUSED_STEP << 5);
    CHECK_EQUAL(f->payload[24], FX_SWITCHING);
    CHECK_EQUAL(f->payload[29], FX_REFUSED_STEP << 5);
  }
}

static void stepsOfTwoBanksAreReadTogether(void) {
  struct fx_setting s = fake_kind(FX_RESIDUAL);
  const struct fake_frame *f;
  running(0, 3, 3);
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0x80, 1, 2);
  fake_step(&fake, 1, 0, 11, 12);
  fake_step(&fake, 2, 0, 1, 2);
  f = after(100000, FX_RESULTS);
  CHECK(f != NULL && f->payload[22] == 3 && f->payload[23] == 1 && f->payload[32] == 1);
  CHECK_EQUAL(fake.most_closed, 4);
}

static void liveVoltageIsFoundBeforeTheSourceIsOn(void) {
  struct fx_setting s = fake_kind(FX_LOW_LEVEL);
  const struct fake_frame *f;
  fake_begin(&fake);
  fake.config.live_volt = 5000000;
  CHECK_EQUAL(fake_start(&fake), 0);
  fake_hello(&fake, 0x10001, 0, 0);
  fake_declare(&fake, 1);
  fake_begin_run(&fake, 1, 0, 1, 1);
  fake_run(&fake, 20000);
  fake.table.live = 0.3;
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 1, 2);
  f = after(50000, FX_RESULTS);
  CHECK(f != NULL && f->payload[23] == FX_REFUSED_STEP << 5 && f->payload[24] == FX_LIVE);
  CHECK_EQUAL(fake.longest_on, 0);
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

static void anEchoIsDroppedAndKeepsNobodyAlive(void) {
  uint32_t i;
  running(0, 9, 5);
  for (i = 0; i < 11; i++) {
    fake_send(&fake, FX_HEARD, fake.session, 0, NULL, 0);
    fake_run(&fake, 100000);
  }
  CHECK_EQUAL(fake.core.dropped, 11);
  CHECK_EQUAL(fake.core.run.active, 0);
  CHECK_EQUAL(fake.core.run.end, FX_HOST_SILENT);
}

static void aBusCheckIsBadAboveTenMicrosiemens(void) {
  declared(1);
  fake.failure = FAKE_WELDED;
  fake.weld = 9e-6;
  fake_begin_run(&fake, 1, 0, 3, 3);
  fake_run(&fake, 30000);
  CHECK_EQUAL(fake.core.run.active, 1);
  declared(1);
  fake.failure = FAKE_WELDED;
  fake.weld = 11e-6;
  fake_begin_run(&fake, 1, 0, 3, 3);
  fake_run(&fake, 30000);
  CHECK_EQUAL(fake.core.run.end, FX_BUS_CHECK);
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

static void aJunctionIsOverRangeBelow999Thousandths(void) {
  struct fx_setting s = fake_kind(FX_JUNCTION);
  const struct fake_frame *f;
  running(0, 2, 2);
  s.voltage = 100000000;
  resistor(1, 2, 1000.5);
  resistor(1, 3, 1002);
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 1, 2);
  fake_step(&fake, 1, 0, 1, 3);
  f = after(100000, FX_RESULTS);
  CHECK(f != NULL && f->payload[23] == (FX_MEASURED << 5 | 2));
  CHECK(f != NULL && f->payload[40] == (FX_OVER << 5 | 2));
}

static void theMeanOfAPatternIsRounded(void) {
  struct fx_setting s = fake_kind(FX_LOW_LEVEL);
  const struct fake_frame *f;
  running(0, 1, 1);
  resistor(3, 4, 0.07);
  fake.skew = 1; /* of four readings two are too high: by a half in the mean */
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 3, 4);
  f = after(100000, FX_RESULTS);
  CHECK(f != NULL);
  CHECK_EQUAL(f != NULL ? (int32_t)fx_get32(f->payload + 24) : 0, 7001);
}

static void anExtendedStepGoesOnUntilItIsDecided(void) {
  struct fx_setting s = fake_kind(FX_LOW_LEVEL);
  const struct fake_frame *f;
  running(0, 1, 1);
  resistor(3, 4, 0.07);
  s.most = 24;
  s.limit = 100000; /* microohm; each point of 70,000 is 30,000 below it */
  s.below = 80000;
  s.above = 80000;
  fake_setting(&fake, 0, &s);
  fake_step(&fake, 0, 0, 3, 4);
  f = after(100000, FX_RESULTS);
  CHECK(f != NULL && f->payload[23] == 3);
}

static void theWatchdogIsFedFromTheLoopAlone(void) {
  uint32_t before;
  started();
  before = fake.kicks;
  fx_receive(&fake.core, 1);
  CHECK_EQUAL(fake.kicks, before);
  fx_poll(&fake.core);
  CHECK_EQUAL(fake.kicks, before + 1);
}

int main(void) {
  nothingIsSaidBeforeTheFirstHello();
  aConfigurationOutOfRangeIsNamed();
  requestsWithoutSessionAreRefused();
  anAnswerIsRepeatedByteByByte();
  everyCapabilityComesOnSomePage();
  aSecondHostIsToldBusyUnlessItTakesOver();
  resistanceIsReadInFourLegs();
  stepsOfATerminalOfManyChannelsCloseThemAll();
  aStepOverItsCeilingIsRefusedAndNothingCloses();
  nothingIsBegunWithoutCredit();
  aGapInTheStreamIsComplainedAboutOnceIn20Milliseconds();
  aTakenFrameIsHeardWithin25Milliseconds();
  silenceOpensEverythingAfterASecond();
  aHostThatDiesWithAFullLineDoesNotKeepTheNextOneOut();
  theLidEndsTheRunAndTheDeclaration();
  aStuckLidSwitchKeepsRunsOut();
  stopIsObeyedFromAnybodyAndAnsweredAfterEnd();
  faultsOpenEverythingAndAreRemembered();
  aConverterThatReadsZeroFailsTheFirstBusCheck();
  fiveVoltNeedAProof();
  theSourceOfAJunctionNeverStaysOnFor20Milliseconds();
  briefStepsGiveTwoBitsEach();
  theBusesAreCheckedEvery64Configurations();
  recordsComeInOrderOverALineThatTakesOneByteAtATime();
  theClockMayTurnOverInARun();
  aClockThatIsReadLateDoesNotLookLikeSilence();
  noiseIsCountedAndDoesNoHarm();
  stepsThatCannotBeJoinedAreEachRefused();
  stepsOfTwoBanksAreReadTogether();
  liveVoltageIsFoundBeforeTheSourceIsOn();
  theIdOfTheRunBeforeIsRefused();
  creditNeverShrinks();
  anEchoIsDroppedAndKeepsNobodyAlive();
  aBusCheckIsBadAboveTenMicrosiemens();
  briefStepsAndOthersShareNoFrame();
  aJunctionIsOverRangeBelow999Thousandths();
  theMeanOfAPatternIsRounded();
  anExtendedStepGoesOnUntilItIsDecided();
  theWatchdogIsFedFromTheLoopAlone();
  printf("%d checks passed, %d failed\n", check_passed, check_failed);
  return check_failed != 0;
}
