package org.jointwalk.files;

import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** How choices are written, and which known word a mistyped one was meant to be. Stateless. */
final class Words {

  private Words() {}

  /** Writes a constant: {@code ball-missing}. */
  static String of(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Writes all constants of a type, in order. */
  static <E extends Enum<E>> List<String> all(Class<E> type) {
    return Arrays.stream(type.getEnumConstants()).map(Words::of).toList();
  }

  /** Reads a constant; empty when the word is none. */
  static <E extends Enum<E>> Optional<E> read(Class<E> type, String word) {
    for (E constant : type.getEnumConstants()) {
      if (isWord(constant.name(), word)) {
        return Optional.of(constant);
      }
    }
    return Optional.empty();
  }

  // Compares without making the word: a map has thousands, read while nothing is compiled yet.
  private static boolean isWord(String constant, String word) {
    if (constant.length() != word.length()) {
      return false;
    }
    for (int i = 0; i < word.length(); i++) {
      char wanted = constant.charAt(i) == '_' ? '-' : Character.toLowerCase(constant.charAt(i));
      if (word.charAt(i) != wanted) {
        return false;
      }
    }
    return true;
  }

  /** The words one after another, for people; of many only the first. */
  static String listed(Collection<String> words) {
    int most = 24;
    String shown = words.stream().limit(most).collect(Collectors.joining(", "));
    return words.size() <= most ? shown : shown + " and " + (words.size() - most) + " more";
  }

  /**
   * The known word that is nearest to a mistyped one by single-character edits, or that begins like
   * it; empty when none is near enough to have been meant. Cost is the number of known words times
   * both lengths.
   */
  static Optional<String> nearest(String word, Collection<String> known) {
    String plain = word.toLowerCase(Locale.ROOT);
    int best = Math.max(1, plain.length() / 3) + 1;
    String found = "";
    for (String candidate : known) {
      if (Math.abs(candidate.length() - plain.length()) < best) {
        int edits = edits(plain, candidate.toLowerCase(Locale.ROOT));
        if (edits < best) {
          best = edits;
          found = candidate;
        }
      }
    }
    return found.isEmpty() ? begun(plain, known) : Optional.of(found);
  }

  /** A known word that somebody stopped writing, or wrote on. */
  private static Optional<String> begun(String plain, Collection<String> known) {
    int enough = 3;
    return known.stream()
        .filter(candidate -> Math.min(candidate.length(), plain.length()) >= enough)
        .filter(
            candidate -> {
              String lower = candidate.toLowerCase(Locale.ROOT);
              return lower.startsWith(plain) || plain.startsWith(lower);
            })
        .findFirst();
  }

  /**
   * Insertions, deletions, replacements and swaps of neighbours that lead from one to the other.
   */
  static int edits(String a, String b) {
    int[][] cost = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          cost[i][j] = i + j;
          continue;
        }
        int replaced = cost[i - 1][j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        cost[i][j] = Math.min(replaced, Math.min(cost[i - 1][j], cost[i][j - 1]) + 1);
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          cost[i][j] = Math.min(cost[i][j], cost[i - 2][j - 2] + 1);
        }
      }
    }
    return cost[a.length()][b.length()];
  }
}
