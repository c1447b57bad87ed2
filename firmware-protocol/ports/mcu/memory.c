#include <stdint.h>
#include <string.h>

/* The compiler calls these on its own when it links the whole program at once. */
#define USED __attribute__((used))

USED void *memcpy(void *to, const void *from, size_t n) { return memmove(to, from, n); }

USED void *memmove(void *to, const void *from, size_t n) {
  uint8_t *t = to;
  const uint8_t *f = from;
  if (t < f) {
    for (; n > 0; n--) {
      *t++ = *f++;
    }
  } else {
    while (n > 0) {
      n--;
      t[n] = f[n];
    }
  }
  return to;
}

USED void *memset(void *to, int value, size_t n) {
  uint8_t *t = to;
  while (n > 0) {
    t[--n] = (uint8_t)value;
  }
  return to;
}

USED int memcmp(const void *a, const void *b, size_t n) {
  const uint8_t *x = a;
  const uint8_t *y = b;
  for (; n > 0; n--, x++, y++) {
    if (*x != *y) {
      return *x - *y;
    }
  }
  return 0;
}

size_t strlen(const char *text) {
  size_t n = 0;
  while (text[n] != '\0') {
    n++;
  }
  return n;
}
