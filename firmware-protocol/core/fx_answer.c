#include "fx_core.h"

int32_t fx_clamped(int64_t value) {
  return value > INT32_MAX ? INT32_MAX : value < -INT32_MAX ? -INT32_MAX : (int32_t)value;
}

static uint32_t magnitude(int32_t value) {
  return value < 0 ? 0u - (uint32_t)value : (uint32_t)value;
}

/* The quotient, bit by bit: a division of 64 bits from a library takes 700 bytes of flash. What does
   not fit 32 bits is the largest that does; so is a division by 0. */
static uint32_t divide(uint64_t whole, uint32_t by) {
  uint32_t quotient = 0;
  uint64_t part = by;
  int i;
  if ((whole >> 32) >= by) {
    return UINT32_MAX;
  }
  part <<= 32;
  for (i = 0; i < 32; i++) {
    part >>= 1;
    quotient <<= 1;
    if (whole >= part) {
      whole -= part;
      quotient |= 1u;
    }
  }
  return quotient;
}

static uint32_t ratio(const struct fx_point *point, uint32_t scale) {
  return divide((uint64_t)magnitude(point->volt) * scale, magnitude(point->amp));
}

/* The number that decides on extension and brief results (10.2). */
uint32_t fx_answer(uint8_t kind, const struct fx_point *points, uint8_t n, int over) {
  const struct fx_point *point = points;
  uint8_t i;
  if (over) {
    return UINT32_MAX;
  }
  for (i = 1; i < n; i++) {
    if (magnitude(points[i].amp) > magnitude(point->amp)) {
      point = &points[i];
    }
  }
  switch (kind) {
    case FX_LOW_LEVEL:
    case FX_NORMAL_LEVEL:
      return ratio(point, 100000000u);
    case FX_ISOLATION:
      return ratio(point, 1000u);
    case FX_ALL_OPEN:
    case FX_CHARGE:
      return magnitude(point->amp);
    default:
      return magnitude(point->volt);
  }
}

/* n times the limit less the sum; within 2^37, so signed 64 bits hold it. */
static int64_t under(const struct fx_setting *setting, uint8_t n, uint64_t sum) {
  return (int64_t)((uint64_t)n * setting->limit) - (int64_t)sum;
}

/* The sequential test of a mean with fixed boundaries (M47). */
int fx_ends(const struct fx_setting *setting, uint8_t n, uint64_t sum, int over) {
  int64_t u = under(setting, n, sum);
  return over || n >= setting->most ||
         (n >= setting->samples && (u >= (int64_t)setting->below || -u >= (int64_t)setting->above));
}

/* The two bits of a brief step (M76). */
uint8_t fx_brief(const struct fx_setting *setting, uint8_t n, uint64_t sum, int over) {
  int64_t u = under(setting, n, sum);
  if (!over && u >= (int64_t)setting->below) {
    return 0;
  }
  return over || -u >= (int64_t)setting->above ? 1 : 2;
}
