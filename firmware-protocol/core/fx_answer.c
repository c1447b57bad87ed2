#include "fx_core.h"

int32_t fx_clamped(int64_t value) {
  return value > INT32_MAX ? INT32_MAX : value < -INT32_MAX ? -INT32_MAX : (int32_t)value;
}

static uint32_t magnitude(int32_t value) {
  return value < 0 ? 0u - (uint32_t)value : (uint32_t)value;
}

static uint32_t ratio(const struct fx_point *point, uint32_t scale) {
  uint32_t amp = magnitude(point->amp);
  uint64_t value;
  if (amp == 0) {
    return UINT32_MAX;
  }
  value = (uint64_t)magnitude(point->volt) * scale / amp;
  return value > UINT32_MAX ? UINT32_MAX : (uint32_t)value;
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
