/* Runs the unit tests; what they share. */
#include "cases.h"

struct fake fake;

void started(void) {
  fake_begin(&fake);
  CHECK_EQUAL(fake_start(&fake), 0);
}

void declared(uint8_t class_of) {
  started();
  fake_hello(&fake, 0x5A1C9E37, 0, 0);
  fake_declare(&fake, class_of);
}

void running(uint32_t first, uint32_t count, uint32_t credit) {
  const struct fake_frame *f;
  declared(1);
  f = fake_begin_run(&fake, 1, first, count, credit);
  CHECK(f != NULL && f->type == FX_STATE);
  CHECK(f != NULL && f->payload[0] == 1);
  /* Loaded, done and checked begin where the run does. */
  CHECK(f != NULL && fx_get32(f->payload + 31) == first && fx_get32(f->payload + 35) == first);
  CHECK(f != NULL && fx_get32(f->payload + 43) == first);
}

void resistor(uint16_t a, uint16_t b, double ohm) {
  struct table_resistor *r = &fake.table.resistor[fake.table.resistors++];
  r->a = a;
  r->b = b;
  r->ohm = ohm;
}

const struct fake_frame *after(uint32_t us, uint8_t type) {
  uint32_t i;
  /* The host says that it is alive. */
  for (i = 0; i < us; i += 200000) {
    fake_run(&fake, us - i < 200000 ? us - i : 200000);
    fake_send(&fake, FX_STATUS, fake.session, ++fake.number, NULL, 0);
  }
  return fake_next(&fake, type);
}

int main(void) {
  line_cases();
  step_cases();
  safety_cases();
  printf("%d checks passed, %d failed\n", check_passed, check_failed);
  return check_failed != 0;
}
