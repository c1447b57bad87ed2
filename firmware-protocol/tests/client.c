/*
 * A host in small, for ports: walks pairs through a fixture on a terminal or socket and checks that
 * every result comes once, in order and right. It can also be the simulator at the other end of the
 * analog channel. Prints results per second; exits 0 when all was as it should be.
 *
 *   client LINE [--listen SOCKET | --connect SOCKET] [--steps N] [--kind N] [--seconds N]
 *
 * With --listen it prints nothing else and waits for the fixture to connect before it opens LINE.
 */
#define _GNU_SOURCE

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "../core/fx_core.h"
#include "../ports/table.h"

#define SENT 256

static uint32_t nonce; /* of this process */
static int line_fd = -1;
static int analog_fd = -1;
static struct fx_line line;
static struct table table;
static uint16_t number = 7;
static uint16_t window = 252;
static uint16_t room = 16;

/* The stream: bytes not yet heard. */
static uint16_t sent_size[SENT];
static uint16_t stream;
static uint16_t heard;
static uint32_t loaded;
static uint32_t done;
static uint32_t credit;
static uint32_t steps = 20000;
static uint16_t record;
static uint8_t kind = FX_RESIDUAL;
static int ended;
static int detail;
static uint32_t checked;

static void fail(const char *what) {
  fprintf(stderr, "client: %s (%u results)\n", what, done);
  exit(1);
}

static double seconds(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static void write_all(int fd, const void *bytes, size_t n) {
  const char *at = bytes;
  while (n > 0) {
    ssize_t w = write(fd, at, n);
    if (w > 0) {
      at += w;
      n -= (size_t)w;
    } else if (errno != EAGAIN && errno != EINTR) {
      fail(strerror(errno));
    } else {
      struct pollfd p = {fd, POLLOUT, 0};
      poll(&p, 1, 10);
    }
  }
}

static size_t put(uint8_t type, uint16_t session, uint16_t num, const uint8_t *payload, uint16_t n) {
  uint8_t raw[FX_RAW];
  uint8_t wire[FX_WIRE + 1];
  struct fx_out out;
  size_t size;
  uint16_t i;
  fx_out_begin(&out, raw, sizeof raw);
  fx_put8(&out, type);
  fx_put16(&out, session);
  fx_put16(&out, num);
  for (i = 0; i < n; i++) {
    fx_put8(&out, payload[i]);
  }
  fx_put32(&out, ~fx_crc(FX_CRC_START, raw, out.n));
  wire[0] = 0;
  size = fx_cobs_encode(wire + 1, raw, out.n);
  wire[size + 1] = 0;
  /* A request has a delimiter before it, as it may be a repetition (M14). */
  write_all(line_fd, type < 0x40 ? wire : wire + 1, size + (type < 0x40 ? 2 : 1));
  return size + 1;
}

static void answer_analog(char *text) {
  unsigned a;
  unsigned b;
  unsigned c;
  struct fx_drive d;
  int level;
  int limit;
  char reply[80];
  switch (text[0]) {
    case 'O':
      table_all_open(&table);
      break;
    case 'B':
      sprintf(reply, "B %ld\n", (long)(getpid() * 7919L % 2147483647L));
      write_all(analog_fd, reply, strlen(reply));
      break;
    case 'M':
      if (sscanf(text, "M %u %u %u", &a, &b, &c) == 3) {
        table_move(&table, (uint8_t)a, (uint16_t)b, (uint8_t)c);
      }
      break;
    case 'D':
      memset(&d, 0, sizeof d);
      if (sscanf(text, "D %u %u %d %d", &a, &b, &level, &limit) == 4 && a < FX_READERS) {
        d.mode = (uint8_t)b;
        d.level = level;
        d.limit = limit;
        table.drive[a] = d;
      }
      break;
    case 'S':
      if (sscanf(text, "S %u %u", &a, &b) == 2 && a < FX_READERS) {
        struct fx_point p = table_read(&table, (uint8_t)a);
        sprintf(reply, "V %u %u %d %d\n", a, b, p.volt, p.amp);
        write_all(analog_fd, reply, strlen(reply));
      }
      break;
    default:
      break;
  }
}

static void read_analog(void) {
  static char text[200];
  static size_t n;
  char bytes[4096];
  ssize_t got = read(analog_fd, bytes, sizeof bytes);
  ssize_t i;
  for (i = 0; i < got; i++) {
    if (bytes[i] == '\n') {
      text[n] = '\0';
      answer_analog(text);
      n = 0;
    } else if (n + 1 < sizeof text) {
      text[n++] = bytes[i];
    }
  }
}

/* What a step of the walk should read: channel 1 against one of eight, of which one conducts. */
static int is_right(uint32_t index, const uint8_t *result) {
  int32_t volt = (int32_t)fx_get32(result + 1);
  if (kind != FX_LOW_LEVEL) {
    return result[0] == 1;
  }
  if (index % 8 == 0) {
    return result[0] == 1 && volt >= 6990 && volt <= 7010;
  }
  return result[0] >> 5 == FX_OVER;
}

static void took(void) {
  const uint8_t *p = line.bytes + FX_HEAD;
  uint8_t type = line.bytes[0];
  if (type < 0x80) {
    fail("a frame of the host came back");
  }
  if (fx_get16(line.bytes + 1) != (nonce & 0xFFFFu)) {
    return;
  }
  if (type == FX_RESULTS || type == FX_CHECK || type == FX_END) {
    if (fx_get16(line.bytes + 3) != ++record) {
      fail("a record is missing");
    }
  }
  if (type == FX_RESULTS || type == FX_CHECK || type == FX_HEARD || type == FX_END) {
    heard = fx_get16(p + 4);
  }
  if (type == FX_RESULTS) {
    uint8_t i;
    const uint8_t *at = p + 23;
    if (fx_get32(p + 6) != done) {
      fail("results are missing");
    }
    for (i = 0; i < p[22]; i++) {
      if (!is_right(done, at)) {
        fail("a result is wrong");
      }
      done++;
      at += at[0] >> 5 == FX_REFUSED_STEP ? 2 : 1 + 8 * (at[0] & 0x1F);
    }
  } else if (type == FX_CHECK) {
    if (p[10] != 0) {
      fail("a bus check is bad");
    }
    checked = fx_get32(p + 6);
  } else if (type == FX_END) {
    ended = p[6];
    detail = fx_get16(p + 7);
  }
}

/* Waits for bytes for up to some milliseconds and deals with them up to the first answer; the type
   of the last frame, or -1. */
static int pump(int ms) {
  static uint8_t bytes[4096];
  static ssize_t n;
  static ssize_t at;
  struct pollfd p[2];
  int last = -1;
  p[0].fd = line_fd;
  p[0].events = POLLIN;
  p[1].fd = analog_fd;
  p[1].events = POLLIN;
  p[1].revents = 0;
  if (at == n) {
    if (poll(p, analog_fd >= 0 ? 2 : 1, ms) <= 0) {
      return -1;
    }
    if (analog_fd >= 0 && p[1].revents != 0) {
      read_analog();
    }
    if (p[0].revents == 0) {
      return -1;
    }
    at = 0;
    n = read(line_fd, bytes, sizeof bytes);
    n = n < 0 ? 0 : n;
  }
  while (at < n) {
    enum fx_got got = fx_line_take(&line, bytes[at++]);
    if (got == FX_GOT) {
      took();
      last = line.bytes[0];
      if (last >= 0x80 && last < 0xC0) {
        return last;
      }
      fx_line_next(&line);
    } else if (got != FX_NOTHING) {
      fail("a damaged frame came");
    }
  }
  return last;
}

/* Asks and waits; the answer's payload. */
static const uint8_t *ask(uint8_t type, const uint8_t *payload, uint16_t n, uint8_t answer) {
  int tries;
  double until;
  number++;
  for (tries = 0; tries < 7; tries++) {
    put(type, (uint16_t)(nonce & 0xFFFFu), number, payload, n);
    for (until = seconds() + (type == FX_HELLO ? 0.3 : 0.5); seconds() < until;) {
      int got = pump(50);
      if (got >= 0x80 && got < 0xC0) {
        if (got != answer) {
          fail("the answer is a refusal");
        }
        fx_line_next(&line);
        return line.bytes + FX_HEAD;
      }
    }
  }
  fail("no answer");
  return NULL;
}

static void open_session(void) {
  uint8_t hello[] = {0x6A, 0x77, 0x66, 0x78, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0};
  uint8_t declare[] = {2, 4, 't', 'e', 's', 't', 1, 1, 0, 0, 0, 0, 0};
  uint8_t channels[4 + 8] = {0, 0, 16, 0, 0x11, 0x11, 0x11, 0x11, 0x11, 0x11, 0x11, 0x11};
  const uint8_t *p;
  uint8_t first = 0;
  uint8_t total;
  {
    struct fx_out out;
    fx_out_begin(&out, hello + 8, 4);
    fx_put32(&out, nonce);
  }
  p = ask(FX_HELLO, hello, sizeof hello, FX_WELCOME);
  window = fx_get16(p + 35);
  room = fx_get16(p + 39);
  do {
    uint16_t at = 2;
    p = ask(FX_CAPABILITIES, &first, 1, FX_PAGE);
    total = p[1];
    for (; at < line.n - FX_RAW_LEAST && first < total; first++) {
      at = (uint16_t)(at + 2 + p[at + 1]);
    }
    line.n = 0;
  } while (first < total);
  ask(FX_DECLARE, declare, sizeof declare, FX_DECLARED);
  p = ask(FX_CHANNELS_MESSAGE, channels, sizeof channels, FX_DECLARED);
  {
    uint8_t run[20];
    struct fx_out out;
    uint32_t declaration = fx_get32(p);
    credit = 2000;
    fx_out_begin(&out, run, sizeof run);
    fx_put32(&out, 1);
    fx_put32(&out, 0);
    fx_put32(&out, steps);
    fx_put32(&out, credit);
    fx_put32(&out, declaration);
    ask(FX_RUN, run, sizeof run, FX_STATE);
  }
}

static uint32_t on_the_way(void) {
  uint32_t n = 0;
  uint16_t i;
  for (i = (uint16_t)(heard + 1); i != (uint16_t)(stream + 1); i++) {
    n += sent_size[i % SENT];
  }
  return n;
}

static int stream_put(uint8_t type, const uint8_t *payload, uint16_t n) {
  if (on_the_way() + n + 11u + 20u > window || (uint16_t)(stream - heard) >= SENT - 1) {
    return 0;
  }
  stream++;
  sent_size[stream % SENT] = (uint16_t)put(type, (uint16_t)(nonce & 0xFFFFu), stream, payload, n);
  return 1;
}

static int put_steps(void) {
  uint8_t payload[FX_PAYLOAD];
  struct fx_out out;
  uint32_t count = done + room - loaded;
  uint32_t i;
  count = count > 30 ? 30 : count;
  count = count > steps - loaded ? steps - loaded : count;
  if (count == 0 || (count < 10 && loaded + count < steps && loaded - done > room / 2u)) {
    return 0;
  }
  fx_out_begin(&out, payload, sizeof payload);
  fx_put32(&out, 1);
  fx_put32(&out, loaded);
  fx_put8(&out, (uint8_t)count);
  for (i = 0; i < count; i++) {
    fx_put8(&out, 0);
    fx_put8(&out, 5);
    fx_put16(&out, 1);
    fx_put16(&out, (uint16_t)(2 + (loaded + i) % 8));
  }
  if (!stream_put(FX_STEPS_MESSAGE, payload, out.n)) {
    return 0;
  }
  loaded += count;
  return 1;
}

static void walk(double most) {
  uint8_t payload[FX_PAYLOAD];
  struct fx_out out;
  double begun = seconds();
  double alive = begun;
  uint8_t i;
  fx_out_begin(&out, payload, sizeof payload);
  fx_put32(&out, 1);
  fx_put8(&out, 0);
  fx_put8(&out, kind);
  fx_put8(&out, 0);
  fx_put8(&out, 1);
  fx_put8(&out, 1);
  fx_put32(&out, 2000000);
  fx_put8(&out, kind == FX_LOW_LEVEL);
  fx_put32(&out, kind == FX_LOW_LEVEL ? 10000000 : 0);
  for (i = 0; i < 6; i++) {
    fx_put32(&out, 0);
  }
  stream_put(FX_SETTING, payload, out.n);
  while (!ended) {
    if (credit < done + 1000 && credit < steps) {
      fx_out_begin(&out, payload, sizeof payload);
      fx_put32(&out, 1);
      fx_put32(&out, done + 2000);
      if (stream_put(FX_CREDIT, payload, out.n)) {
        credit = done + 2000;
      }
    }
    while (put_steps()) {
    }
    if (pump(50) == FX_STATE) {
      fx_line_next(&line);
    }
    if (seconds() - alive > 0.2) {
      alive = seconds();
      put(FX_STATUS, (uint16_t)(nonce & 0xFFFFu), ++number, NULL, 0);
    }
    if (seconds() - begun > most) {
      fail("it takes too long");
    }
  }
  if (ended != FX_DONE || done != steps || checked != steps) {
    fprintf(stderr, "client: end %d, detail %d, checked %u\n", ended, detail, checked);
    fail("the run ended otherwise");
  }
  printf("%u results, %.0f a second\n", done, done / (seconds() - begun));
}

static int socket_to(const char *path, int listens) {
  struct sockaddr_un to;
  int s = socket(AF_UNIX, SOCK_STREAM, 0);
  memset(&to, 0, sizeof to);
  to.sun_family = AF_UNIX;
  if (s < 0 || strlen(path) >= sizeof to.sun_path) {
    fail("no socket");
  }
  strcpy(to.sun_path, path);
  if (!listens) {
    int tries;
    for (tries = 0; connect(s, (struct sockaddr *)&to, sizeof to) != 0; tries++) {
      if (tries == 50) {
        fail(path);
      }
      usleep(100000);
    }
    return s;
  }
  unlink(path);
  if (bind(s, (struct sockaddr *)&to, sizeof to) != 0 || listen(s, 1) != 0) {
    fail(path);
  }
  return accept(s, NULL, NULL);
}

static void open_line(const char *path) {
  struct stat is;
  struct termios raw;
  int tries;
  for (tries = 0; stat(path, &is) != 0; tries++) {
    if (tries == 50) {
      fail(path);
    }
    usleep(100000);
  }
  if (S_ISSOCK(is.st_mode)) {
    line_fd = socket_to(path, 0);
    return;
  }
  line_fd = open(path, O_RDWR | O_NOCTTY);
  if (line_fd < 0) {
    fail(path);
  }
  if (tcgetattr(line_fd, &raw) == 0) {
    cfmakeraw(&raw);
    tcsetattr(line_fd, TCSANOW, &raw);
  }
}

int main(int argc, char **argv) {
  double most = 60;
  int i;
  if (argc < 2) {
    fail("LINE is missing");
  }
  table.resistor[0].a = 1;
  table.resistor[0].b = 2;
  table.resistor[0].ohm = 0.07;
  table.resistors = 1;
  for (i = 2; i + 1 < argc; i += 2) {
    if (strcmp(argv[i], "--listen") == 0) {
      analog_fd = socket_to(argv[i + 1], 1);
    } else if (strcmp(argv[i], "--connect") == 0) {
      analog_fd = socket_to(argv[i + 1], 0);
    } else if (strcmp(argv[i], "--steps") == 0) {
      steps = (uint32_t)atol(argv[i + 1]);
    } else if (strcmp(argv[i], "--kind") == 0) {
      kind = (uint8_t)atoi(argv[i + 1]);
    } else if (strcmp(argv[i], "--seconds") == 0) {
      most = atof(argv[i + 1]);
    }
  }
  nonce = (uint32_t)getpid() * 2654435761u | 1u;
  open_line(argv[1]);
  open_session();
  walk(most);
  return 0;
}
