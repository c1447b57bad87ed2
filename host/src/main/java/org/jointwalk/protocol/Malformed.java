package org.jointwalk.protocol;

/** A payload is not what its type says. Never leaves the package: it becomes a value there. */
final class Malformed extends Exception {

  private static final long serialVersionUID = 1L;

  private final Refusal refusal;
  private final long detail;

  Malformed(Refusal refusal, long detail) {
    // Noise makes many of these; the place in the code says nothing about the bytes.
    super(refusal.name(), null, false, false);
    this.refusal = refusal;
    this.detail = detail;
  }

  Refusal refusal() {
    return refusal;
  }

  long detail() {
    return detail;
  }
}
