/* What a step closes, drives, reads and is refused for. */
#include <string.h>

#include "cases.h"

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
  CHECK(fake_next(&fake, FX_END) != NULL);
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

void step_cases(void) {
  resistanceIsReadInFourLegs();
  stepsOfATerminalOfManyChannelsCloseThemAll();
  aStepOverItsCeilingIsRefusedAndNothingCloses();
  fiveVoltNeedAProof();
  theSourceOfAJunctionNeverStaysOnFor20Milliseconds();
  briefStepsGiveTwoBitsEach();
  stepsThatCannotBeJoinedAreEachRefused();
  stepsOfTwoBanksAreReadTogether();
  aJunctionIsOverRangeBelow999Thousandths();
  theMeanOfAPatternIsRounded();
  anExtendedStepGoesOnUntilItIsDecided();
}
