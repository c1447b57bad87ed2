/* Assertions that go on counting. */
#ifndef CHECK_H
#define CHECK_H

#include <stdio.h>

extern int check_failed;
extern int check_passed;

#define CHECK(holds)                                                  \
  do {                                                                \
    if (holds) {                                                      \
      check_passed++;                                                 \
    } else {                                                          \
      check_failed++;                                                 \
      printf("%s:%d: does not hold: %s\n", __FILE__, __LINE__, #holds); \
    }                                                                 \
  } while (0)

#define CHECK_EQUAL(is, should)                                                                  \
  do {                                                                                           \
    long long is_ = (long long)(is);                                                             \
    long long should_ = (long long)(should);                                                     \
    if (is_ == should_) {                                                                        \
      check_passed++;                                                                            \
    } else {                                                                                     \
      check_failed++;                                                                            \
      printf("%s:%d: %s is %lld, not %lld\n", __FILE__, __LINE__, #is, is_, should_);            \
    }                                                                                            \
  } while (0)

#endif
