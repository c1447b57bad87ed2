/* Bytes, checks and frames: section 4 of the specification. */
#ifndef FX_FRAME_H
#define FX_FRAME_H

#include <stddef.h>
#include <stdint.h>

#define FX_RAW 250u      /* longest raw frame (M5) */
#define FX_RAW_LEAST 9u
#define FX_WIRE 252u     /* the same on the line with its delimiter */
#define FX_PAYLOAD 241u
#define FX_HEAD 5u

/* What is left of a payload, read from front to back; the first thing wrong is kept. */
struct fx_in {
  const uint8_t *at;
  uint16_t left;
  uint8_t bad; /* 0, or the code of 16.1: BAD_LENGTH or BAD_VALUE */
};

void fx_in_begin(struct fx_in *in, const uint8_t *bytes, uint16_t n);
uint8_t fx_u8(struct fx_in *in);
uint16_t fx_u16(struct fx_in *in);
uint32_t fx_u32(struct fx_in *in);
int32_t fx_measure(struct fx_in *in); /* -2^31 is a bad value (M3) */
void fx_ask(struct fx_in *in, int allowed);
void fx_exactly(struct fx_in *in, uint16_t n);
void fx_end(struct fx_in *in);
/* n bytes, or NULL when they are not there. */
const uint8_t *fx_bytes(struct fx_in *in, uint16_t n);

/* A raw frame that is being written; a byte beyond its end is not written. */
struct fx_out {
  uint8_t *bytes;
  uint16_t n;
  uint16_t most;
};

void fx_out_begin(struct fx_out *out, uint8_t *bytes, uint16_t most);
void fx_put8(struct fx_out *out, uint8_t value);
void fx_put16(struct fx_out *out, uint16_t value);
void fx_put32(struct fx_out *out, uint32_t value);
void fx_put64(struct fx_out *out, uint64_t value);

uint16_t fx_get16(const uint8_t *at);
uint32_t fx_get32(const uint8_t *at);

#define FX_CRC_START 0xFFFFFFFFu
/* Runs the CRC-32C on; begin with FX_CRC_START, the check is the complement of the last (M6). */
uint32_t fx_crc(uint32_t crc, const uint8_t *bytes, size_t n);

/* Encodes n bytes to at most n + n / 254 + 1 without a delimiter; to and bytes do not overlap. */
size_t fx_cobs_encode(uint8_t *to, const uint8_t *bytes, size_t n);
/* Decodes in place. The length, or -1 when it is not COBS (M9). */
long fx_cobs_decode(uint8_t *bytes, size_t n);

/* A receiver of frames. */
struct fx_line {
  uint16_t n;
  uint8_t oversize;
  uint8_t bytes[FX_WIRE];
};

enum fx_got {
  FX_NOTHING = 0,   /* not finished, or empty (M10) */
  FX_GOT = 1,       /* line->bytes holds a raw frame of line->n bytes until the next call */
  FX_DROPPED = 2,   /* length, COBS or check (M11) */
  FX_OVERSIZE = 3   /* more than 251 bytes (M12) */
};

enum fx_got fx_line_take(struct fx_line *line, uint8_t byte);
/* Forgets the frame that fx_line_take returned. */
void fx_line_next(struct fx_line *line);

/* 1: valid UTF-8 without U+0000 to U+001F and U+007F (M4). */
int fx_is_text(const uint8_t *bytes, uint16_t n);

#endif
