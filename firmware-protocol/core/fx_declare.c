#include <string.h>

#include "fx_core.h"

void fx_undeclare(struct fx_core *core) {
  core->declared = 0;
  core->classes = 0;
  memset(core->places, 0, sizeof core->places);
  memset(core->proved, 0, sizeof core->proved);
}

uint8_t fx_place(const struct fx_core *core, uint32_t channel) {
  uint8_t both = core->places[channel / 2];
  return (uint8_t)(channel % 2 == 0 ? both & 0xF : both >> 4);
}

/* Why the declaration cannot be changed now, or 0 (M40). */
static uint16_t barred(const struct fx_core *core) {
  return core->run.active || core->run.ending ? FX_RUN_UNDER_WAY
         : core->lid == 1 ? (uint16_t)FX_LID_OPEN : (uint16_t)0;
}

static int class_read(struct fx_in *in, int board, struct fx_class *to) {
  uint8_t flags;
  to->kind = fx_u8(in);
  fx_ask(in, to->kind >= 1 && to->kind <= 4);
  flags = fx_u8(in);
  fx_ask(in, flags <= 3);
  to->nominal = fx_measure(in);
  fx_ask(in, to->nominal >= 0);
  fx_ask(in, board == (to->kind != 4)); /* (M39) */
  to->sense = flags & 1;
  to->delicate = (flags >> 1) & 1;
  return in->bad == 0;
}

uint16_t fx_declare(struct fx_core *core, struct fx_in *in, uint32_t *detail) {
  const uint8_t *payload = in->at;
  uint16_t n = in->left;
  struct fx_in second;
  struct fx_class unused;
  const uint8_t *text;
  uint8_t present;
  uint8_t size;
  uint8_t count;
  uint8_t i;
  uint16_t code;
  present = fx_u8(in);
  fx_ask(in, present <= 0xF);
  size = fx_u8(in);
  fx_ask(in, size >= 1 && size <= 32);
  text = fx_bytes(in, size);
  fx_ask(in, text == NULL || fx_is_text(text, size));
  count = fx_u8(in);
  fx_ask(in, count <= FX_CLASSES);
  /* Read twice: what is refused has no effect (M34). */
  second = *in;
  for (i = 0; in->bad == 0 && i < count; i++) {
    (void)class_read(in, (present & 3) != 0, &unused);
  }
  fx_end(in);
  if (in->bad != 0) {
    *detail = in->bad == FX_BAD_LENGTH ? n : 0u;
    return in->bad;
  }
  code = barred(core);
  if (code != 0) {
    return code;
  }
  fx_undeclare(core); /* (M38) */
  for (i = 0; i < count; i++) {
    (void)class_read(&second, (present & 3) != 0, &core->class_of[i]);
  }
  core->classes = count;
  core->declare_crc = fx_crc(FX_CRC_START, payload, n);
  core->declared = 1;
  return 0;
}

uint16_t fx_channels(struct fx_core *core, struct fx_in *in) {
  uint16_t first = fx_u16(in);
  uint16_t count = fx_u16(in);
  const uint8_t *packed;
  uint32_t i;
  uint16_t code;
  fx_ask(in, count >= 1 && count <= 474);
  packed = fx_bytes(in, (uint16_t)((count + 1u) / 2u));
  fx_end(in);
  fx_ask(in, first % 2 == 0 && (uint32_t)first + count <= 65535u);
  fx_ask(in, packed == NULL || count % 2 == 0 || packed[count / 2] >> 4 == 0);
  if (in->bad != 0 || packed == NULL) {
    return in->bad;
  }
  code = barred(core);
  if (code == 0 && !core->declared) {
    code = FX_NOT_DECLARED;
  }
  if (code != 0) {
    return code;
  }
  if ((uint32_t)first + count > core->config->channels) {
    return FX_BAD_VALUE;
  }
  for (i = 0; i < count; i++) {
    if (((packed[i / 2] >> (i % 2 * 4)) & 0xF) > core->classes) {
      return FX_BAD_VALUE;
    }
  }
  for (i = 0; i < count; i++) {
    uint8_t place = (uint8_t)((packed[i / 2] >> (i % 2 * 4)) & 0xF);
    uint8_t *both = &core->places[(first + i) / 2];
    *both = (uint8_t)((first + i) % 2 == 0 ? (*both & 0xF0) | place : (*both & 0x0F) | (place << 4));
  }
  return 0;
}

/* Over DECLARE and the place of every channel, one byte each; 0 without a declaration (M41). */
uint32_t fx_declaration(const struct fx_core *core) {
  uint32_t crc = core->declare_crc;
  uint32_t channel;
  if (!core->declared) {
    return 0;
  }
  for (channel = 0; channel < core->config->channels; channel++) {
    uint8_t place = fx_place(core, channel);
    crc = fx_crc(crc, &place, 1);
  }
  return ~crc;
}
