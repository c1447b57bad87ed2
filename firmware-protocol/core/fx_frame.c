#include "fx_frame.h"

#include <string.h>

void fx_in_begin(struct fx_in *in, const uint8_t *bytes, uint16_t n) {
  in->at = bytes;
  in->left = n;
  in->bad = 0;
}

const uint8_t *fx_bytes(struct fx_in *in, uint16_t n) {
  const uint8_t *at = in->at;
  if (in->bad != 0) {
    return NULL;
  }
  if (n > in->left) {
    in->bad = 2;
    return NULL;
  }
  in->at += n;
  in->left = (uint16_t)(in->left - n);
  return at;
}

uint8_t fx_u8(struct fx_in *in) {
  const uint8_t *at = fx_bytes(in, 1);
  return at == NULL ? (uint8_t)0 : at[0];
}

uint16_t fx_u16(struct fx_in *in) {
  const uint8_t *at = fx_bytes(in, 2);
  return at == NULL ? (uint16_t)0 : fx_get16(at);
}

uint32_t fx_u32(struct fx_in *in) {
  const uint8_t *at = fx_bytes(in, 4);
  return at == NULL ? 0u : fx_get32(at);
}

int32_t fx_measure(struct fx_in *in) {
  uint32_t bits = fx_u32(in);
  fx_ask(in, bits != 0x80000000u);
  return (int32_t)bits;
}

void fx_ask(struct fx_in *in, int allowed) {
  if (in->bad == 0 && !allowed) {
    in->bad = 3;
  }
}

void fx_exactly(struct fx_in *in, uint16_t n) {
  if (in->bad == 0 && in->left != n) {
    in->bad = 2;
  }
}

void fx_end(struct fx_in *in) { fx_exactly(in, 0); }

uint16_t fx_get16(const uint8_t *at) { return (uint16_t)(at[0] | (at[1] << 8)); }

uint32_t fx_get32(const uint8_t *at) {
  return (uint32_t)fx_get16(at) | ((uint32_t)fx_get16(at + 2) << 16);
}

void fx_out_begin(struct fx_out *out, uint8_t *bytes, uint16_t most) {
  out->bytes = bytes;
  out->n = 0;
  out->most = most;
}

void fx_put8(struct fx_out *out, uint8_t value) {
  if (out->n < out->most) {
    out->bytes[out->n++] = value;
  }
}

void fx_put16(struct fx_out *out, uint16_t value) {
  fx_put8(out, (uint8_t)(value & 0xFFu));
  fx_put8(out, (uint8_t)(value >> 8));
}

void fx_put32(struct fx_out *out, uint32_t value) {
  fx_put16(out, (uint16_t)(value & 0xFFFFu));
  fx_put16(out, (uint16_t)(value >> 16));
}

void fx_put64(struct fx_out *out, uint64_t value) {
  fx_put32(out, (uint32_t)(value & 0xFFFFFFFFu));
  fx_put32(out, (uint32_t)(value >> 32));
}

uint32_t fx_crc(uint32_t crc, const uint8_t *bytes, size_t n) {
  /* The reflected polynomial 0x82F63B78 for each value of four bits: 64 bytes where a table of
     whole bytes would take 1,024. */
  static const uint32_t table[16] = {
      0x00000000u, 0x105EC76Fu, 0x20BD8EDEu, 0x30E349B1u, 0x417B1DBCu, 0x5125DAD3u,
      0x61C69362u, 0x7198540Du, 0x82F63B78u, 0x92A8FC17u, 0xA24BB5A6u, 0xB21572C9u,
      0xC38D26C4u, 0xD3D3E1ABu, 0xE330A81Au, 0xF36E6F75u};
  size_t i;
  for (i = 0; i < n; i++) {
    crc ^= bytes[i];
    crc = (crc >> 4) ^ table[crc & 0xFu];
    crc = (crc >> 4) ^ table[crc & 0xFu];
  }
  return crc;
}

size_t fx_cobs_encode(uint8_t *to, const uint8_t *bytes, size_t n) {
  size_t code = 0; /* where the code of the open block stands */
  size_t out = 1;
  size_t i;
  for (i = 0; i < n; i++) {
    if (bytes[i] != 0) {
      to[out++] = bytes[i];
    }
    /* A full block that ends the data gets no further block (M8). */
    if (bytes[i] == 0 || (out - code == 255 && i + 1 < n)) {
      to[code] = (uint8_t)(out - code);
      code = out++;
    }
  }
  to[code] = (uint8_t)(out - code);
  return out;
}

long fx_cobs_decode(uint8_t *bytes, size_t n) {
  size_t from = 0;
  size_t to = 0;
  if (n == 0) {
    return -1;
  }
  while (from < n) {
    size_t code = bytes[from];
    size_t k;
    if (code == 0 || from + code > n) {
      return -1;
    }
    for (k = 1; k < code; k++) {
      if (bytes[from + k] == 0) {
        return -1;
      }
      bytes[to++] = bytes[from + k];
    }
    from += code;
    if (code < 255 && from < n) {
      bytes[to++] = 0;
    }
  }
  return (long)to;
}

void fx_line_next(struct fx_line *line) {
  line->n = 0;
  line->oversize = 0;
}

enum fx_got fx_line_take(struct fx_line *line, uint8_t byte) {
  long n;
  if (byte != 0) {
    /* 251 bytes may stand before a delimiter; with one more the rest is skipped (M12). */
    if (line->n < FX_WIRE - 1u) {
      line->bytes[line->n++] = byte;
    } else {
      line->oversize = 1;
    }
    return FX_NOTHING;
  }
  if (line->oversize) {
    fx_line_next(line);
    return FX_OVERSIZE;
  }
  if (line->n == 0) {
    return FX_NOTHING;
  }
  n = fx_cobs_decode(line->bytes, line->n);
  if (n < (long)FX_RAW_LEAST || n > (long)FX_RAW ||
      fx_crc(FX_CRC_START, line->bytes, (size_t)n - 4) !=
          ~fx_get32(line->bytes + (size_t)n - 4)) {
    fx_line_next(line);
    return FX_DROPPED;
  }
  line->n = (uint16_t)n;
  return FX_GOT;
}

int fx_is_text(const uint8_t *bytes, uint16_t n) {
  uint32_t code = 0;
  uint32_t least = 0;
  uint8_t more = 0; /* bytes of the open sequence */
  uint16_t i;
  for (i = 0; i < n; i++) {
    uint8_t b = bytes[i];
    if (more != 0) {
      code = (code << 6) | (b & 0x3Fu);
      /* No overlong forms, no surrogates, nothing beyond U+10FFFF. */
      if ((b & 0xC0) != 0x80 ||
          (--more == 0 && (code < least || (code >> 11) == 0x1B || code > 0x10FFFF))) {
        return 0;
      }
    } else if (b >= 0xC0 && b < 0xF8) {
      more = b < 0xE0 ? 1 : b < 0xF0 ? 2 : 3;
      code = b & (0x3Fu >> more);
      least = more == 1 ? 0x80u : 1u << (5 * more + 1);
    } else if (b < 0x20 || b >= 0x7F) {
      return 0;
    }
  }
  return more == 0;
}
