/*
 * A fixture as a Linux process behind a pseudo-terminal or on its standard input and output. What
 * it measures comes from a host simulator over a socket (../analog.h), or from a table of resistors
 * in a file.
 */
#define _GNU_SOURCE

#include <errno.h>
#include <fcntl.h>
#include <netdb.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/random.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "../../core/fx_core.h"
#include "../analog.h"
#include "../table.h"

struct port {
  struct fx_core core;
  struct fx_config config;
  struct fx_hal hal;
  struct analog analog;
  struct table table;
  int in;      /* the line */
  int out;
  int link;    /* to the simulator, -1: the table is used */
  int is_pty;
  int nobody;  /* no client has the pseudo-terminal open */
  char pending[1 << 16]; /* for the simulator */
  size_t pending_n;
};

static struct port port;
static const char *link_path;
static volatile sig_atomic_t linked; /* the link is ours to take away */

static void leave(int status) {
  if (linked) {
    unlink(link_path);
  }
  exit(status);
}

static void fail(const char *what) {
  fprintf(stderr, "fixture: %s: %s\n", what, strerror(errno));
  leave(1);
}

static void on_signal(int signal) {
  (void)signal;
  if (linked) {
    unlink(link_path);
  }
  _exit(0);
}

static uint32_t now(void *ctx) {
  struct timespec t;
  (void)ctx;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (uint32_t)((uint64_t)t.tv_sec * 1000000u + (uint64_t)t.tv_nsec / 1000u);
}

static uint16_t send_bytes(void *ctx, const uint8_t *bytes, uint16_t n) {
  ssize_t sent;
  (void)ctx;
  sent = write(port.out, bytes, n);
  if (sent >= 0) {
    return (uint16_t)sent;
  }
  if (errno == EAGAIN || errno == EINTR) {
    return 0;
  }
  /* EIO: nobody has the terminal open. What is sent to nobody is gone. */
  port.nobody = port.is_pty;
  return n;
}

static void flush_link(void) {
  size_t done = 0;
  while (done < port.pending_n) {
    ssize_t n = write(port.link, port.pending + done, port.pending_n - done);
    if (n > 0) {
      done += (size_t)n;
    } else if (errno == EAGAIN) {
      struct pollfd p = {port.link, POLLOUT, 0};
      poll(&p, 1, 10);
    } else if (errno != EINTR) {
      leave(0); /* without a simulator there is nothing to measure */
    }
  }
  port.pending_n = 0;
}

static void put(void *ctx, const char *text, uint16_t n) {
  (void)ctx;
  if (port.pending_n + n > sizeof port.pending) {
    flush_link();
  }
  memcpy(port.pending + port.pending_n, text, n);
  port.pending_n += n;
}

static void start_linked(void *ctx, uint8_t reader, uint32_t window_us) {
  analog_start(ctx, reader, window_us);
  flush_link();
}

static uint8_t inputs(void *ctx) {
  (void)ctx;
  return (uint8_t)(port.analog.inputs | (port.nobody ? FX_IN_LINE_LOST : 0));
}

static uint8_t health(void *ctx) {
  (void)ctx;
  return port.analog.health;
}

/* The operating system ends a process that hangs no sooner than anybody else: no watchdog here. */
static void kick(void *ctx) { (void)ctx; }

static void all_open_table(void *ctx) { table_all_open(ctx); }

static int move_table(void *ctx, uint8_t bus, uint16_t channel, uint8_t closed) {
  table_move(ctx, bus, channel, closed);
  return 0;
}

static int latch_table(void *ctx) {
  (void)ctx;
  return 0;
}

static int range_table(void *ctx, uint8_t reader, uint8_t kind) {
  (void)ctx;
  (void)reader;
  (void)kind;
  return 0;
}

static void drive_table(void *ctx, uint8_t reader, const struct fx_drive *drive) {
  ((struct table *)ctx)->drive[reader] = *drive;
}

static void start_table(void *ctx, uint8_t reader, uint32_t window_us) {
  (void)ctx;
  (void)reader;
  (void)window_us;
}

static int read_table(void *ctx, uint8_t reader, struct fx_point *point) {
  *point = table_read(ctx, reader);
  return 1;
}

static void use_table(void) {
  port.hal.ctx = &port.table;
  port.hal.all_open = all_open_table;
  port.hal.move = move_table;
  port.hal.latch = latch_table;
  port.hal.range = range_table;
  port.hal.drive = drive_table;
  port.hal.start = start_table;
  port.hal.read = read_table;
}

static void use_link(void) {
  analog_begin(&port.analog, put, NULL);
  port.hal.ctx = &port.analog;
  port.hal.all_open = analog_all_open;
  port.hal.move = analog_move;
  port.hal.latch = analog_latch;
  port.hal.range = analog_range;
  port.hal.drive = analog_drive;
  port.hal.start = start_linked;
  port.hal.read = analog_read;
}

/* Lines of "channel channel ohm"; what begins with # is for people. */
static void read_table_file(const char *path) {
  FILE *file = fopen(path, "r");
  char line[200];
  if (file == NULL) {
    fail(path);
  }
  while (fgets(line, sizeof line, file) != NULL) {
    struct table_resistor *r = &port.table.resistor[port.table.resistors];
    unsigned a;
    unsigned b;
    double ohm;
    if (line[0] == '#' || line[0] == '\n') {
      continue;
    }
    if (port.table.resistors == TABLE_MOST || sscanf(line, "%u %u %lf", &a, &b, &ohm) != 3 ||
        a >= FX_CHANNELS || b >= FX_CHANNELS || !(ohm > 0)) {
      fprintf(stderr, "fixture: %s: not understood: %s", path, line);
      leave(2);
    }
    r->a = (uint16_t)a;
    r->b = (uint16_t)b;
    r->ohm = ohm;
    port.table.resistors++;
  }
  fclose(file);
}

static int connect_unix(const char *path) {
  struct sockaddr_un to;
  int s = socket(AF_UNIX, SOCK_STREAM, 0);
  memset(&to, 0, sizeof to);
  to.sun_family = AF_UNIX;
  if (strlen(path) >= sizeof to.sun_path) {
    errno = ENAMETOOLONG;
    fail(path);
  }
  strcpy(to.sun_path, path);
  if (s < 0 || connect(s, (struct sockaddr *)&to, sizeof to) != 0) {
    fail(path);
  }
  return s;
}

/* PATH of a Unix socket, or HOST:PORT. */
static int connect_to(const char *where) {
  struct addrinfo hints;
  struct addrinfo *found = NULL;
  char host[200];
  const char *colon = strrchr(where, ':');
  int s;
  if (colon == NULL || strchr(where, '/') != NULL) {
    return connect_unix(where);
  }
  memset(&hints, 0, sizeof hints);
  hints.ai_socktype = SOCK_STREAM;
  snprintf(host, sizeof host, "%.*s", (int)(colon - where), where);
  if (getaddrinfo(host, colon + 1, &hints, &found) != 0) {
    errno = EADDRNOTAVAIL;
    fail(where);
  }
  s = socket(found->ai_family, found->ai_socktype, found->ai_protocol);
  if (s < 0 || connect(s, found->ai_addr, found->ai_addrlen) != 0) {
    fail(where);
  }
  freeaddrinfo(found);
  return s;
}

static void open_pty(void) {
  struct termios raw;
  int fd = posix_openpt(O_RDWR | O_NOCTTY);
  int slave;
  if (fd < 0 || grantpt(fd) != 0 || unlockpt(fd) != 0) {
    fail("no pseudo-terminal");
  }
  /* Raw before anybody can speak: a terminal that echoes would answer for the host. */
  slave = open(ptsname(fd), O_RDWR | O_NOCTTY);
  if (slave < 0 || tcgetattr(slave, &raw) != 0) {
    fail("the pseudo-terminal cannot be set up");
  }
  cfmakeraw(&raw);
  tcsetattr(slave, TCSANOW, &raw);
  close(slave);
  port.in = fd;
  port.out = fd;
  port.is_pty = 1;
  port.nobody = 1;
  if (link_path != NULL) {
    struct stat before;
    /* A link that an earlier run left is replaced; anything else is not ours. */
    if (lstat(link_path, &before) == 0 && S_ISLNK(before.st_mode)) {
      unlink(link_path);
    }
    if (symlink(ptsname(fd), link_path) != 0) {
      fail(link_path);
    }
    linked = 1;
  }
  printf("%s\n", ptsname(fd));
  fflush(stdout);
}

static void never_wait(int fd) { fcntl(fd, F_SETFL, fcntl(fd, F_GETFL) | O_NONBLOCK); }

static void receive(void) {
  uint8_t bytes[1024];
  size_t most = fx_room(&port.core);
  ssize_t n;
  ssize_t i;
  /* No more than the ring takes: the kernel holds the rest and the host waits. */
  n = most == 0 ? 0 : read(port.in, bytes, most < sizeof bytes ? most : sizeof bytes);
  if (n > 0) {
    port.nobody = 0;
    for (i = 0; i < n; i++) {
      fx_receive(&port.core, bytes[i]);
    }
  } else if (n < 0 && errno == EIO) {
    port.nobody = 1;
  } else if (n == 0 && most != 0 && !port.is_pty) {
    leave(0);
  }
}

static void receive_analog(void) {
  char bytes[4096];
  ssize_t n = read(port.link, bytes, sizeof bytes);
  ssize_t i;
  if (n == 0 || (n < 0 && errno != EAGAIN && errno != EINTR)) {
    leave(0);
  }
  for (i = 0; i < n; i++) {
    analog_take(&port.analog, bytes[i]);
  }
}

static void loop(void) {
  for (;;) {
    struct pollfd p[2];
    int is_idle = fx_is_idle(&port.core);
    struct timespec wait = {0, 0};
    p[0].fd = port.in;
    p[0].events = POLLIN;
    p[1].fd = port.link;
    p[1].events = POLLIN;
    /* In a run a step may end any microsecond; without one a millisecond is soon enough. */
    wait.tv_nsec = port.nobody && is_idle ? 20000000 : is_idle ? 1000000 : 0;
    if (port.core.scan.waiting != 0 && port.core.out_n == 0) {
      wait.tv_nsec = 500000; /* what it waits for comes on the line and wakes it */
    } else if (!is_idle && port.link >= 0 && port.core.scan.state != FX_SCAN_IDLE) {
      wait.tv_nsec = 20000; /* most likely the simulator's reading comes first */
    }
    if (ppoll(p, port.link >= 0 ? 2 : 1, &wait, NULL) > 0) {
      if ((p[0].revents & POLLIN) != 0) {
        receive();
      } else if ((p[0].revents & (POLLHUP | POLLERR)) != 0) {
        receive();
        if (port.nobody && is_idle) {
          nanosleep(&(struct timespec){0, 5000000}, NULL);
        }
      }
      if (port.link >= 0 && p[1].revents != 0) {
        receive_analog();
      }
    }
    fx_poll(&port.core);
    if (port.link >= 0 && port.pending_n > 0) {
      flush_link();
    }
  }
}

static struct fx_range ranges[FX_KINDS] = {
    {FX_ALL_OPEN, 1000000, 500000000, 100000, 1000, 1000, 1000, 100, 0},
    {FX_RESIDUAL, 1000000, 500000000, 100000, 1000, 1000, 1000, 100, 0},
    {FX_RESIDUAL_LOADED, 1000000, 500000000, 100000, 1000, 1000, 1000, 100, 0},
    {FX_DISCHARGE, 1000000, 500000000, 100000, 1000, 1000, 1000, 100, 0},
    {FX_LOW_LEVEL, 1000000000, 500000000, 100000, 1000, 1000, 1000, 100, 0},
    {FX_NORMAL_LEVEL, 1000000000, 500000000, 100000, 1000, 1000, 1000, 100, 0},
    {FX_ISOLATION, 1000000, 500000000, 100000, 1000, 1000, 1000, 100, 0},
    {FX_JUNCTION, 10000000, 500000000, 100000, 1000, 1000, 1000, 100, 0},
    {FX_CHARGE, 1000000, 500000000, 100000, 1000, 1000, 1000, 100, 0},
};

static void configure(void) {
  struct fx_config *c = &port.config;
  uint64_t random = 0;
  c->identity = "virtual fixture";
  c->build_text = "jointwalk reference firmware, pseudo-terminal";
  c->calibration = "none";
  c->build = 1;
  if (getrandom(&random, sizeof random, 0) != (ssize_t)sizeof random) {
    fail("no random numbers");
  }
  c->boot = random >> 1;
  c->reset_cause = 1;
  c->channels = 512;
  c->steps = FX_STEPS;
  c->settings = FX_SETTINGS;
  c->sets = FX_SETS;
  c->points = FX_POINTS;
  c->clamp = 600000000;
  c->switching = 2;
  c->kelvin = 1;
  c->banks = 1;
  c->readers = 1;
  c->most_high = FX_CHANNELS;
  c->most_low = FX_CHANNELS;
  c->ranges = ranges;
  c->range_count = FX_KINDS;
  c->operate_ns = 0;
  c->release_ns = 0;
  c->has_lid = 1;
  c->debounce_us = 20000;
  c->check_volt = 5000000;
  c->check_amp = 10000000;
  c->check_settle_us = 0;
  c->convert_us = 100000;
}

static long number(const char *text, long most) {
  char *end;
  long value = strtol(text, &end, 10);
  if (*text == '\0' || *end != '\0' || value < 0 || value > most) {
    fprintf(stderr, "fixture: a number from 0 to %ld is needed, not %s\n", most, text);
    leave(2);
  }
  return value;
}

static void usage(void) {
  fprintf(stderr,
          "usage: fixture-pty [--stdio | --link PATH] [--analog SOCKET | --table FILE]\n"
          "                   [--channels N] [--banks N] [--readers N] [--switching 0-3]\n"
          "                   [--kelvin 0-2] [--operate NS] [--release NS] [--settle US]\n"
          "                   [--time US]\n"
          "SOCKET is the path of a Unix socket or HOST:PORT; FILE has lines of CHANNEL CHANNEL OHM.\n");
  leave(2);
}

static int is(const char *option, const char *name) { return strcmp(option, name) == 0; }

static void option(const char *name, const char *value) {
  struct fx_config *c = &port.config;
  int i;
  if (is(name, "--link")) {
    link_path = value;
  } else if (is(name, "--analog")) {
    port.link = connect_to(value);
  } else if (is(name, "--table")) {
    read_table_file(value);
  } else if (is(name, "--channels")) {
    c->channels = (uint16_t)number(value, FX_CHANNELS);
    c->most_high = c->channels;
    c->most_low = c->channels;
  } else if (is(name, "--banks")) {
    c->banks = (uint16_t)number(value, 65535);
  } else if (is(name, "--readers")) {
    c->readers = (uint16_t)number(value, FX_READERS);
  } else if (is(name, "--switching")) {
    c->switching = (uint8_t)number(value, 3);
  } else if (is(name, "--kelvin")) {
    c->kelvin = (uint8_t)number(value, 2);
  } else if (is(name, "--operate")) {
    c->operate_ns = (uint32_t)number(value, 1000000000);
  } else if (is(name, "--release")) {
    c->release_ns = (uint32_t)number(value, 50000000);
  } else if (is(name, "--settle") || is(name, "--time")) {
    for (i = 0; i < FX_KINDS; i++) {
      uint32_t us = (uint32_t)number(value, 500000);
      *(is(name, "--time") ? &ranges[i].time_us : &ranges[i].settle_us) = us;
    }
  } else {
    usage();
  }
}

int main(int argc, char **argv) {
  int stdio = 0;
  int wrong;
  int i;
  port.link = -1;
  signal(SIGPIPE, SIG_IGN);
  signal(SIGTERM, on_signal);
  signal(SIGINT, on_signal);
  configure();
  for (i = 1; i < argc; i++) {
    if (is(argv[i], "--stdio")) {
      stdio = 1;
    } else if (i + 1 < argc) {
      option(argv[i], argv[i + 1]);
      i++;
    } else {
      usage();
    }
  }
  port.hal.now = now;
  port.hal.send = send_bytes;
  port.hal.inputs = inputs;
  port.hal.health = health;
  port.hal.kick = kick;
  if (port.link >= 0) {
    use_link();
    never_wait(port.link);
  } else {
    use_table();
  }
  wrong = fx_init(&port.core, &port.config, &port.hal);
  if (wrong != 0) {
    fprintf(stderr, "fixture: member %d of the configuration is out of range\n", wrong);
    leave(2);
  }
  if (stdio) {
    port.in = STDIN_FILENO;
    port.out = STDOUT_FILENO;
  } else {
    open_pty();
  }
  never_wait(port.in);
  never_wait(port.out);
  loop();
  return 0;
}
