/* What ends a run, and what is open afterwards. */
#include "cases.h"

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

static void theWatchdogIsFedFromTheLoopAlone(void) {
  uint32_t before;
  started();
  before = fake.kicks;
  fx_receive(&fake.core, 1);
  CHECK_EQUAL(fake.kicks, before);
  fx_poll(&fake.core);
  CHECK_EQUAL(fake.kicks, before + 1);
}

void safety_cases(void) {
  silenceOpensEverythingAfterASecond();
  aHostThatDiesWithAFullLineDoesNotKeepTheNextOneOut();
  theLidEndsTheRunAndTheDeclaration();
  aStuckLidSwitchKeepsRunsOut();
  stopIsObeyedFromAnybodyAndAnsweredAfterEnd();
  faultsOpenEverythingAndAreRemembered();
  aConverterThatReadsZeroFailsTheFirstBusCheck();
  theBusesAreCheckedEvery64Configurations();
  theClockMayTurnOverInARun();
  aClockThatIsReadLateDoesNotLookLikeSilence();
  liveVoltageIsFoundBeforeTheSourceIsOn();
  anEchoIsDroppedAndKeepsNobodyAlive();
  aBusCheckIsBadAboveTenMicrosiemens();
  theWatchdogIsFedFromTheLoopAlone();
}
