#include "json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *at;

static void fail(const char *what, const char *which) {
  fprintf(stderr, "vectors: %s: %.40s\n", what, which);
  exit(2);
}

static void *room(size_t n) {
  void *p = calloc(1, n);
  if (p == NULL) {
    fail("no memory", "");
  }
  return p;
}

static void skip(void) { at += strspn(at, " \t\r\n"); }

static char *text(void) {
  const char *end;
  char *copy;
  size_t n = 0;
  if (*at != '"') {
    fail("text expected", at);
  }
  for (end = ++at; *end != '"'; end++) {
    if (*end == '\0') {
      fail("text without end", at);
    }
    end += *end == '\\';
  }
  copy = room((size_t)(end - at) + 1);
  for (; at < end; at++) {
    at += *at == '\\'; /* the vectors escape quotes and backslashes only */
    copy[n++] = *at;
  }
  at = end + 1;
  return copy;
}

static struct json *value(void);

static void members(struct json *of, char close) {
  struct json **last = &of->first;
  at++;
  skip();
  while (*at != close) {
    char *name = NULL;
    if (close == '}') {
      name = text();
      skip();
      if (*at++ != ':') {
        fail("colon expected", at);
      }
    }
    *last = value();
    (*last)->name = name;
    last = &(*last)->next;
    skip();
    if (*at == ',') {
      at++;
      skip();
    } else if (*at != close) {
      fail("comma expected", at);
    }
  }
  at++;
}

static struct json *value(void) {
  struct json *v = room(sizeof *v);
  char *end;
  skip();
  switch (*at) {
    case '{':
      v->kind = JSON_OBJECT;
      members(v, '}');
      break;
    case '[':
      v->kind = JSON_LIST;
      members(v, ']');
      break;
    case '"':
      v->kind = JSON_TEXT;
      v->text = text();
      break;
    default:
      v->kind = JSON_NUMBER;
      v->number = strtoll(at, &end, 10);
      if (end == at) {
        fail("number expected", at);
      }
      at = end;
  }
  return v;
}

struct json *json_read(const char *path) {
  FILE *file = fopen(path, "rb");
  char *all = room(1u << 22);
  if (file == NULL) {
    fail("cannot be opened", path);
  }
  (void)fread(all, 1, (1u << 22) - 1, file);
  fclose(file);
  at = all;
  return value();
}

const struct json *json_find(const struct json *object, const char *name) {
  const struct json *m;
  for (m = object->first; m != NULL; m = m->next) {
    if (m->name != NULL && strcmp(m->name, name) == 0) {
      return m;
    }
  }
  return NULL;
}

const struct json *json_get(const struct json *object, const char *name) {
  const struct json *m = json_find(object, name);
  if (m == NULL) {
    fail("no such member", name);
  }
  return m;
}

long long json_number(const struct json *object, const char *name) {
  return json_get(object, name)->number;
}

const char *json_text(const struct json *object, const char *name) {
  return json_get(object, name)->text;
}

static unsigned digit(char c) {
  const char *digits = "0123456789abcdef";
  const char *found = c == '\0' ? NULL : strchr(digits, c);
  if (found == NULL) {
    fail("no hexadecimal digit", "");
  }
  return (unsigned)(found - digits);
}

size_t json_hex(const char *text_, uint8_t *bytes, size_t most) {
  size_t n = strlen(text_) / 2;
  size_t i;
  if (n > most) {
    fail("too long", text_);
  }
  for (i = 0; i < n; i++) {
    bytes[i] = (uint8_t)(digit(text_[2 * i]) << 4 | digit(text_[2 * i + 1]));
  }
  return n;
}
