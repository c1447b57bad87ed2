/* Runs the vectors that both ends share; ../SPEC.md, section 20. */
#include <string.h>

#include "check.h"
#include "fake.h"
#include "json.h"

static struct fake fake;
static const char *at;

static const struct json *vectors(const struct json *file) {
  return json_get(file, "vectors")->first;
}

static void crc(const struct json *file) {
  const struct json *v;
  uint8_t data[600];
  for (v = vectors(file); v != NULL; v = v->next) {
    size_t n = json_hex(json_text(v, "data"), data, sizeof data);
    at = json_text(v, "name");
    CHECK_EQUAL((uint32_t)~fx_crc(FX_CRC_START, data, n), json_number(v, "crc"));
  }
}

static void decodes(const char *text, const uint8_t *data, size_t n) {
  uint8_t bytes[600];
  size_t size = json_hex(text, bytes, sizeof bytes);
  CHECK_EQUAL(fx_cobs_decode(bytes, size), n);
  CHECK(memcmp(bytes, data, n) == 0);
}

static void cobs(const struct json *file) {
  const struct json *v;
  uint8_t data[600];
  uint8_t is[600];
  uint8_t should[600];
  for (v = vectors(file); v != NULL; v = v->next) {
    size_t n = json_hex(json_text(v, "encoded"), should, sizeof should);
    const char *also;
    at = json_text(v, "name");
    if (strcmp(json_text(v, "verdict"), "reject") == 0) {
      CHECK_EQUAL(fx_cobs_decode(should, n), -1);
      continue;
    }
    {
      size_t size = json_hex(json_text(v, "data"), data, sizeof data);
      const struct json *other;
      CHECK_EQUAL(fx_cobs_encode(is, data, size), n);
      CHECK(memcmp(is, should, n) == 0);
      decodes(json_text(v, "encoded"), data, size);
      for (other = json_get(v, "also")->first; other != NULL; other = other->next) {
        also = other->text;
        decodes(also, data, size);
      }
    }
  }
}

/* What a receiver makes of bytes; a direction is wrong where `to` says so. */
static void frames(const struct json *file) {
  const struct json *v;
  static uint8_t wire[2000];
  for (v = vectors(file); v != NULL; v = v->next) {
    size_t n = json_hex(json_text(v, "wire"), wire, sizeof wire);
    const struct json *e = json_get(v, "expected")->first;
    int to_host = strcmp(json_text(v, "to"), "host") == 0;
    struct fx_line line;
    size_t i;
    memset(&line, 0, sizeof line);
    at = json_text(v, "name");
    for (i = 0; i < n; i++) {
      enum fx_got got = fx_line_take(&line, wire[i]);
      if (got == FX_NOTHING) {
        continue;
      }
      CHECK(e != NULL);
      if (e == NULL) {
        break;
      }
      if (strcmp(json_text(e, "verdict"), "accept") == 0) {
        uint8_t raw[FX_RAW];
        size_t size = json_hex(json_text(e, "raw"), raw, sizeof raw);
        CHECK_EQUAL(got, FX_GOT);
        CHECK_EQUAL(line.n, size);
        CHECK(memcmp(line.bytes, raw, size) == 0);
      } else if (strcmp(json_text(e, "cause"), "direction") == 0) {
        CHECK_EQUAL(got, FX_GOT);
        CHECK((line.bytes[0] < 0x80) == to_host);
      } else {
        CHECK_EQUAL(got, strcmp(json_text(e, "cause"), "oversize") == 0 ? FX_OVERSIZE : FX_DROPPED);
      }
      if (got == FX_GOT) {
        fx_line_next(&line);
      }
      e = e->next;
    }
    CHECK(e == NULL);
  }
}

/* Raw and wire of every message belong together, in both directions. */
static void messages(const struct json *file) {
  const struct json *v;
  for (v = vectors(file); v != NULL; v = v->next) {
    uint8_t raw[FX_RAW];
    uint8_t wire[FX_WIRE];
    uint8_t is[FX_WIRE];
    size_t n = json_hex(json_text(v, "raw"), raw, sizeof raw);
    size_t size = json_hex(json_text(v, "wire"), wire, sizeof wire);
    at = json_text(v, "name");
    CHECK_EQUAL(raw[0], json_number(v, "type"));
    CHECK_EQUAL(fx_get16(raw + 1), json_number(v, "session"));
    CHECK_EQUAL(fx_get16(raw + 3), json_number(v, "number"));
    CHECK_EQUAL((uint32_t)~fx_crc(FX_CRC_START, raw, n), 0x48674BC7);
    CHECK_EQUAL(fx_cobs_encode(is, raw, n) + 1, size);
    CHECK(memcmp(is, wire, size - 1) == 0);
  }
}

static void open_session(uint32_t nonce) {
  fake_begin(&fake);
  fake.config.channels = FX_CHANNELS;
  fake.config.settings = FX_SETTINGS;
  fake.number = 0x0100;
  CHECK_EQUAL(fake_start(&fake), 0);
  fake_hello(&fake, nonce, 0, 0);
}

/* Frames with a wrong content: the core refuses with the code, or ends the run. */
static void refused(const struct json *file) {
  const struct json *v;
  for (v = vectors(file); v != NULL; v = v->next) {
    uint8_t raw[FX_RAW];
    size_t n = json_hex(json_text(v, "raw"), raw, sizeof raw);
    long long type = json_number(v, "type");
    long long code = json_number(v, "code");
    const struct fake_frame *f;
    at = json_text(v, "name");
    if (type >= 0x80) {
      continue; /* for the host's reader */
    }
    open_session(0x5A1C9E37);
    if (type < 0x40) {
      fake.taken = fake.count;
      fake_send(&fake, (uint8_t)type, fake.session, (uint16_t)(fake.number + 1), raw + FX_HEAD,
                (uint16_t)(n - FX_RAW_LEAST));
      f = fake_next(&fake, FX_REFUSED);
      CHECK(f != NULL);
      if (f != NULL) {
        CHECK_EQUAL(f->payload[0], type);
        CHECK_EQUAL(fx_get16(f->payload + 1), code);
      }
    } else {
      uint8_t payload[FX_PAYLOAD];
      fake_declare(&fake, 1);
      fake_begin_run(&fake, 1, 0, 0xFFFFFFFEu, 0);
      memcpy(payload, raw + FX_HEAD, n - FX_RAW_LEAST);
      fake_stream(&fake, (uint8_t)type, payload, (uint16_t)(n - FX_RAW_LEAST));
      if (type >= 0x60) {
        CHECK_EQUAL(fake.core.run.end, 0);
      } else if (n - FX_RAW_LEAST >= 4 && fx_get32(payload) != 1) {
        CHECK_EQUAL(fake.core.run.end, 0);
      } else {
        CHECK_EQUAL(fake.core.run.end, FX_BAD_PROGRAM);
      }
    }
  }
}

static void declaration(const struct json *v) {
  uint8_t payload[FX_PAYLOAD];
  size_t n = json_hex(json_text(v, "declare"), payload, sizeof payload);
  const struct json *more;
  const struct fake_frame *f;
  fake_begin(&fake);
  fake.config.channels = (uint16_t)json_number(v, "channels");
  CHECK_EQUAL(fake_start(&fake), 0);
  fake_hello(&fake, 0x10001, 0, 0);
  f = fake_ask(&fake, FX_DECLARE, payload, (uint16_t)n);
  for (more = json_get(v, "places")->first; more != NULL; more = more->next) {
    n = json_hex(more->text, payload, sizeof payload);
    f = fake_ask(&fake, FX_CHANNELS_MESSAGE, payload, (uint16_t)n);
  }
  CHECK(f != NULL && f->type == FX_DECLARED);
  CHECK_EQUAL(f != NULL ? fx_get32(f->payload) : 0, json_number(v, "check"));
}

static void extension(const struct json *v) {
  const struct json *a;
  struct fx_setting s = fake_kind(FX_LOW_LEVEL);
  uint64_t sum = 0;
  uint8_t taken = 0;
  s.samples = (uint8_t)json_number(v, "samples");
  s.most = (uint8_t)json_number(v, "most");
  s.limit = (uint32_t)json_number(v, "limit");
  s.below = (uint32_t)json_number(v, "below");
  s.above = (uint32_t)json_number(v, "above");
  for (a = json_get(v, "answers")->first; a != NULL; a = a->next) {
    sum += (uint64_t)a->number;
    taken++;
    if (fx_ends(&s, taken, sum, 0)) {
      break;
    }
  }
  CHECK_EQUAL(taken, json_number(v, "taken"));
  CHECK_EQUAL(fx_brief(&s, taken, sum, 0), json_number(v, "bits"));
}

static void answer(const struct json *v) {
  struct fx_point points[4];
  const struct json *p;
  uint8_t n = 0;
  for (p = json_get(v, "points")->first; p != NULL && n < 4; p = p->next) {
    points[n].volt = (int32_t)p->first->number;
    points[n++].amp = (int32_t)p->first->next->number;
  }
  CHECK_EQUAL(fx_answer((uint8_t)json_number(v, "kind"), points, n, (int)json_number(v, "over")),
              json_number(v, "answer"));
}

/* The checks of the vectors stand for bytes; they are given to the core as they are. */
static void requests(const struct json *v) {
  const struct json *r;
  open_session(0x10000u + (uint32_t)json_number(v, "session"));
  fake.core.cache.number = (uint16_t)json_number(v, "number");
  fake.core.cache.check = (uint32_t)json_number(v, "check");
  for (r = json_get(v, "requests")->first; r != NULL; r = r->next) {
    struct fx_in in;
    uint32_t before = fake.core.cache.check;
    long long code = json_number(r, "code");
    fx_in_begin(&in, NULL, 0);
    fake.core.aside.type = 0;
    fake.core.answer_due = 0;
    fx_request(&fake.core, FX_STATUS, (uint16_t)json_number(r, "session"),
               (uint16_t)json_number(r, "number"), (uint32_t)json_number(r, "check"), &in);
    CHECK_EQUAL(fake.core.aside.type == FX_REFUSED ? fake.core.aside.code : 0, code);
    CHECK_EQUAL(fake.core.answer_due, code == 0);
    if (code != 0 || json_number(r, "repeat")) {
      CHECK_EQUAL(fake.core.cache.check, before);
    } else {
      CHECK_EQUAL(fake.core.cache.check, json_number(r, "check"));
    }
  }
}

static void stream(const struct json *v) {
  uint8_t payload[8] = {1, 0, 0, 0, 5, 0, 0, 0};
  long long ahead = json_number(v, "ahead");
  struct fx_in in;
  open_session(0x10001);
  fake_declare(&fake, 1);
  fake_begin_run(&fake, 1, 0, 10, 0);
  fake.core.run.heard = (uint16_t)json_number(v, "heard");
  fx_in_begin(&in, payload, sizeof payload);
  fx_stream(&fake.core, FX_CREDIT, (uint16_t)json_number(v, "number"), &in);
  CHECK_EQUAL(fake.core.run.credit, ahead == 0 ? 5 : 0);
  CHECK_EQUAL(fake.core.nag_due, ahead != 0);
  CHECK_EQUAL(fake.core.nag_gap, ahead > 0);
}

/* A terminal of one or several channels; several go into a set. */
static uint16_t terminal(const struct json *list, uint8_t bus, struct fx_step *step) {
  const struct json *c;
  int count = 0;
  for (c = list->first; c != NULL; c = c->next) {
    count++;
    fx_bit_set(fake.core.sets[bus], (uint32_t)c->number, 1);
  }
  fake.core.set_filled[bus] = 1;
  step->form = (uint8_t)(step->form | ((count == 1 ? 1 : 2) << (2 * bus)));
  step->terminal[bus] = count == 1 ? (uint16_t)list->first->number : bus;
  return 0;
}

static void proofs(const struct json *v) {
  const struct json *j;
  uint32_t channel;
  open_session(0x10001);
  fake_declare(&fake, 4);
  for (j = json_get(v, "junctions")->first; j != NULL; j = j->next) {
    struct fx_setting s = fake_kind(FX_JUNCTION);
    struct fx_step step = {0, 0, {0, 0, 0, 0}};
    struct fx_meter m;
    memset(&m, 0, sizeof m);
    memset(fake.core.sets, 0, sizeof fake.core.sets);
    s.voltage = (int32_t)json_number(j, "voltage");
    s.currents[0] = (int32_t)json_number(j, "current");
    fake.core.settings[0] = s;
    terminal(json_get(j, "high"), FX_FORCE_HIGH, &step);
    terminal(json_get(j, "low"), FX_FORCE_LOW, &step);
    m.status = (uint8_t)json_number(j, "status");
    m.points = 1;
    m.point[0].volt = (int32_t)json_number(j, "volt");
    fx_learn(&fake.core, &step, &m);
  }
  for (channel = 0; channel < FX_CHANNELS; channel++) {
    const struct json *p;
    int should = 0;
    for (p = json_get(v, "proved")->first; p != NULL; p = p->next) {
      should |= p->number == (long long)channel;
    }
    CHECK_EQUAL(fx_bit(fake.core.proved, channel), should);
  }
}

static void rules(const struct json *file) {
  const struct json *v;
  for (v = vectors(file); v != NULL; v = v->next) {
    const char *rule = json_text(v, "rule");
    at = json_text(v, "name");
    if (strcmp(rule, "answer") == 0) {
      answer(v);
    } else if (strcmp(rule, "extension") == 0) {
      extension(v);
    } else if (strcmp(rule, "declaration") == 0) {
      declaration(v);
    } else if (strcmp(rule, "capabilities") == 0) {
      uint8_t items[64];
      size_t n = json_hex(json_text(v, "items"), items, sizeof items);
      CHECK_EQUAL((uint32_t)~fx_crc(FX_CRC_START, items, n), json_number(v, "check"));
    } else if (strcmp(rule, "requests") == 0) {
      requests(v);
    } else if (strcmp(rule, "stream") == 0) {
      stream(v);
    } else if (strcmp(rule, "proofs") == 0) {
      proofs(v);
    } else {
      CHECK(!"a rule that is known");
    }
  }
}

static uint16_t take(const struct json *message) {
  uint8_t payload[FX_PAYLOAD];
  size_t n = json_hex(json_text(message, "payload"), payload, sizeof payload);
  struct fx_in in;
  fx_in_begin(&in, payload, (uint16_t)n);
  return fx_stream_take(&fake.core, (uint8_t)json_number(message, "type"), &in);
}

static void programs(const struct json *file) {
  const struct json *w = json_get(file, "welcome");
  const struct json *r = json_get(file, "run");
  const struct json *v;
  for (v = vectors(file); v != NULL; v = v->next) {
    const struct json *m;
    uint16_t fault = 0;
    at = json_text(v, "name");
    fake_begin(&fake);
    fake.config.channels = (uint16_t)json_number(w, "channels");
    fake.config.steps = (uint16_t)json_number(w, "steps");
    fake.config.settings = (uint8_t)json_number(w, "settings");
    fake.config.sets = (uint8_t)json_number(w, "sets");
    fake.config.points = (uint8_t)json_number(w, "points");
    CHECK_EQUAL(fake_start(&fake), 0);
    fake.core.run.last = (uint32_t)(json_number(r, "first") + json_number(r, "count"));
    fake.core.run.loaded = (uint32_t)json_number(r, "first");
    for (m = json_get(v, "stream")->first; m != NULL; m = m->next) {
      CHECK_EQUAL(fault, 0);
      fake.core.run.done = (uint32_t)json_number(m, "done");
      fault = take(m);
    }
    CHECK_EQUAL(fault, json_number(v, "fault"));
  }
}

/* Configures the fake from capability items as they go over the line. */
static void from_items(const char *hex) {
  static struct fx_range ranges[FX_KINDS];
  static uint8_t items[1000];
  struct fx_in in;
  fx_in_begin(&in, items, (uint16_t)json_hex(hex, items, sizeof items));
  fake.config.ranges = ranges;
  fake.config.range_count = 0;
  while (in.left > 0) {
    uint8_t tag = fx_u8(&in);
    uint8_t n = fx_u8(&in);
    struct fx_in item;
    fx_in_begin(&item, fx_bytes(&in, n), n);
    if (tag == 0x04) {
      fake.config.switching = fx_u8(&item);
      fake.config.kelvin = fx_u8(&item);
      fake.config.banks = fx_u16(&item);
      fake.config.readers = fx_u16(&item);
      fake.config.most_high = fx_u16(&item);
      fake.config.most_low = fx_u16(&item);
    } else if (tag == 0x05) {
      struct fx_range *range = &ranges[fake.config.range_count++];
      memset(range, 0, sizeof *range);
      range->kind = fx_u8(&item);
      range->current = fx_measure(&item);
      range->compliance = fx_measure(&item);
      (void)fx_bytes(&item, 16);
      range->time_us = fx_u32(&item);
    } else if (tag == 0x08) {
      fake.config.clamp = fx_measure(&item);
    }
  }
  fake.config.readers = 1;
}

static void steps(const struct json *file) {
  const struct json *v;
  for (v = vectors(file); v != NULL; v = v->next) {
    const struct json *m;
    at = json_text(v, "name");
    fake_begin(&fake);
    from_items(json_text(json_get(file, "items"), json_text(v, "fixture")));
    fake.config.channels = (uint16_t)json_number(file, "channels");
    CHECK_EQUAL(fake_start(&fake), 0);
    fake_hello(&fake, 0x10001, 0, 0);
    for (m = json_get(file, json_text(v, "declared"))->first; m != NULL; m = m->next) {
      uint8_t payload[FX_PAYLOAD];
      size_t n = json_hex(json_text(m, "payload"), payload, sizeof payload);
      const struct fake_frame *f =
          fake_ask(&fake, (uint8_t)json_number(m, "type"), payload, (uint16_t)n);
      CHECK(f != NULL && f->type == FX_DECLARED);
    }
    for (m = json_get(v, "proved")->first; m != NULL; m = m->next) {
      fx_bit_set(fake.core.proved, (uint32_t)m->number, 1);
    }
    fake.core.run.last = 1;
    for (m = json_get(v, "stream")->first; m != NULL; m = m->next) {
      CHECK_EQUAL(take(m), 0);
    }
    CHECK_EQUAL(fx_refusal(&fake.core, fx_step_at(&fake.core, 0)), json_number(v, "reason"));
  }
}

int main(int argc, char **argv) {
  static const struct {
    const char *file;
    void (*run)(const struct json *file);
  } all[] = {{"crc.json", crc},           {"cobs.json", cobs},         {"frames.json", frames},
             {"messages.json", messages}, {"refused.json", refused},   {"rules.json", rules},
             {"programs.json", programs}, {"steps.json", steps}};
  size_t i;
  for (i = 0; i < sizeof all / sizeof all[0]; i++) {
    char path[1000];
    const struct json *v;
    const struct json *file;
    int before = check_failed;
    int count = 0;
    snprintf(path, sizeof path, "%s/%s", argc > 1 ? argv[1] : "vectors", all[i].file);
    file = json_read(path);
    all[i].run(file);
    for (v = vectors(file); v != NULL; v = v->next) {
      count++;
    }
    CHECK(count > 0);
    printf("%s %d vectors%s\n", all[i].file, count, check_failed > before ? ": FAILED" : "");
    if (check_failed > before) {
      printf("  the last vector was %s\n", at);
    }
  }
  printf("%d checks passed, %d failed\n", check_passed, check_failed);
  return check_failed != 0;
}
