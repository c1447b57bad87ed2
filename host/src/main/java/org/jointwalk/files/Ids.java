package org.jointwalk.files;

/** What may be the id of a position, net or access point. Stateless. */
final class Ids {

  private static final int LONGEST = 64;

  static final String ALLOWED = "1 to " + LONGEST + " characters without white space";

  private Ids() {}

  /** Whether ids can stand between spaces in {@link Names}; a loop, since there are thousands. */
  static boolean isId(String text) {
    if (text.isEmpty() || text.length() > LONGEST) {
      return false;
    }
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (Character.isWhitespace(c) || Character.isSpaceChar(c) || Character.isISOControl(c)) {
        return false;
      }
    }
    return true;
  }

  /** What to write instead of a text that is no id. */
  static String instead(String text) {
    String id = text.strip().replaceAll("[\\s\\p{Cntrl}]+", "_");
    return isId(id) ? JsonOut.quoted(id) : "a short name";
  }
}
