#include "analog.h"

#include <string.h>

#define FIELDS 8

struct text {
  char bytes[80];
  uint16_t n;
};

static void put_char(struct text *text, char c) {
  if (text->n < sizeof text->bytes) {
    text->bytes[text->n++] = c;
  }
}

static void put_number(struct text *text, int32_t value) {
  char digits[10];
  int n = 0;
  uint32_t rest = value < 0 ? 0u - (uint32_t)value : (uint32_t)value;
  put_char(text, ' ');
  if (value < 0) {
    put_char(text, '-');
  }
  do {
    digits[n++] = (char)('0' + (char)(rest % 10));
    rest /= 10;
  } while (rest != 0);
  while (n > 0) {
    put_char(text, digits[--n]);
  }
}

static void tell(const struct analog *a, char what, const int32_t *numbers, int n) {
  struct text text;
  int i;
  text.n = 0;
  put_char(&text, what);
  for (i = 0; i < n; i++) {
    put_number(&text, numbers[i]);
  }
  put_char(&text, '\n');
  a->put(a->ctx, text.bytes, text.n);
}

void analog_begin(struct analog *a, void (*put)(void *ctx, const char *text, uint16_t n),
                  void *ctx) {
  memset(a, 0, sizeof *a);
  a->put = put;
  a->ctx = ctx;
}

int analog_is_waiting(const struct analog *a) {
  uint8_t i;
  for (i = 0; i < FX_READERS; i++) {
    if (a->asked[i] != 0 && !a->there[i]) {
      return 1;
    }
  }
  return 0;
}

void analog_seed_ask(struct analog *a) { tell(a, 'B', NULL, 0); }

void analog_all_open(void *ctx) { tell(ctx, 'O', NULL, 0); }

int analog_move(void *ctx, uint8_t bus, uint16_t channel, uint8_t closed) {
  int32_t numbers[3];
  numbers[0] = bus;
  numbers[1] = channel;
  numbers[2] = closed;
  tell(ctx, 'M', numbers, 3);
  return 0;
}

int analog_latch(void *ctx) {
  (void)ctx;
  return 0;
}

int analog_range(void *ctx, uint8_t reader, uint8_t kind) {
  int32_t numbers[2];
  numbers[0] = reader;
  numbers[1] = kind;
  tell(ctx, 'R', numbers, 2);
  return 0;
}

void analog_drive(void *ctx, uint8_t reader, const struct fx_drive *drive) {
  int32_t numbers[6];
  numbers[0] = reader;
  numbers[1] = drive->mode;
  numbers[2] = drive->level;
  numbers[3] = drive->limit;
  numbers[4] = drive->high;
  numbers[5] = drive->low;
  tell(ctx, 'D', numbers, 6);
}

void analog_start(void *ctx, uint8_t reader, uint32_t window_us) {
  struct analog *a = ctx;
  int32_t numbers[3];
  a->tag = (uint16_t)(a->tag + 1);
  a->asked[reader] = a->tag;
  a->there[reader] = 0;
  numbers[0] = reader;
  numbers[1] = a->tag;
  numbers[2] = (int32_t)window_us;
  tell(a, 'S', numbers, 3);
}

int analog_read(void *ctx, uint8_t reader, struct fx_point *point) {
  const struct analog *a = ctx;
  *point = a->point[reader];
  return a->there[reader];
}

/* Numbers of a line from its second byte on; how many there are, or -1. */
static int numbers_of(const char *line, uint8_t n, int32_t *numbers) {
  int count = 0;
  uint8_t i = 1;
  while (i < n) {
    int is_minus;
    int32_t value = 0;
    if (line[i++] != ' ' || i == n || count == FIELDS) {
      return -1;
    }
    is_minus = line[i] == '-';
    i = (uint8_t)(i + is_minus);
    for (; i < n && line[i] != ' '; i++) {
      int digit = line[i] - '0';
      if (digit < 0 || digit > 9 || value > (INT32_MAX - digit) / 10) {
        return -1;
      }
      value = 10 * value + digit;
    }
    numbers[count++] = is_minus ? -value : value;
  }
  return count;
}

static void understand(struct analog *a) {
  int32_t numbers[FIELDS] = {0};
  int count = numbers_of(a->line, a->n, numbers);
  if (a->line[0] == 'V' && count == 4 && numbers[0] >= 0 && numbers[0] < FX_READERS) {
    uint8_t reader = (uint8_t)numbers[0];
    if (numbers[1] == a->asked[reader]) {
      a->point[reader].volt = numbers[2];
      a->point[reader].amp = numbers[3];
      a->there[reader] = 1;
    }
  } else if (a->line[0] == 'I' && count == 1) {
    a->inputs = (uint8_t)(numbers[0] & 0xFF);
  } else if (a->line[0] == 'B' && count == 1) {
    a->seed = (uint32_t)numbers[0];
    a->seeded = 1;
  } else if (a->line[0] == 'H' && count == 1) {
    a->health = (uint8_t)(numbers[0] & 0xFF);
  }
}

void analog_take(struct analog *a, char byte) {
  if (byte == '\n') {
    if (a->n > 0 && a->n < sizeof a->line) {
      understand(a);
    }
    a->n = 0;
  } else if (a->n < sizeof a->line) {
    a->line[a->n++] = byte;
  }
}
