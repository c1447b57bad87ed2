package org.jointwalk.files;

/**
 * One thing that is wrong, or doubtful, in a file.
 *
 * @param place where
 * @param reason what is wrong, without full stop
 * @param value what was found there, shortened; empty when nothing is there
 * @param allowed what could stand there
 * @param hint what to do now
 */
public record Fault(Place place, String reason, String value, String allowed, String hint) {

  private static final int LONGEST = 80;

  public Fault {
    if (value.length() > LONGEST) {
      value = value.substring(0, LONGEST - 3) + "...";
    }
  }

  /** The whole fault on one line. */
  @Override
  public String toString() {
    StringBuilder text = new StringBuilder();
    text.append(place).append(": ").append(reason);
    if (!value.isEmpty()) {
      text.append(": ").append(value);
    }
    text.append(". Allowed: ").append(allowed).append('.');
    if (!hint.isEmpty()) {
      text.append(' ').append(hint).append(hint.endsWith("?") ? "" : ".");
    }
    return text.toString();
  }
}
