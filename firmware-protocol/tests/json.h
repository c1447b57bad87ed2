/* Reads the vectors: just as much JSON as they use, with no bounds on patience for bad files. */
#ifndef JSON_H
#define JSON_H

#include <stddef.h>
#include <stdint.h>

enum json_kind { JSON_NUMBER, JSON_TEXT, JSON_LIST, JSON_OBJECT };

struct json {
  enum json_kind kind;
  char *name;        /* within an object */
  char *text;
  long long number;
  struct json *first; /* of a list or an object */
  struct json *next;
};

/* The whole file; prints what is wrong and exits on failure. */
struct json *json_read(const char *path);
/* A member; prints its name and exits when it is missing. */
const struct json *json_get(const struct json *object, const char *name);
const struct json *json_find(const struct json *object, const char *name);
long long json_number(const struct json *object, const char *name);
const char *json_text(const struct json *object, const char *name);
/* Hexadecimal text as bytes; their number. */
size_t json_hex(const char *text, uint8_t *bytes, size_t most);

#endif
