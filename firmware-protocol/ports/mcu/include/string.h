/* The five functions that the core uses, so that the image needs no C library. */
#ifndef STRING_H
#define STRING_H

#include <stddef.h>

void *memcpy(void *to, const void *from, size_t n);
void *memmove(void *to, const void *from, size_t n);
void *memset(void *to, int value, size_t n);
int memcmp(const void *a, const void *b, size_t n);
size_t strlen(const char *text);

#endif
