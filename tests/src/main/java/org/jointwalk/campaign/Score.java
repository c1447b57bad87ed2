package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.List;

/** What judging one stack, or several, came to. Not thread-safe. */
final class Score {

  private final Tally tally = new Tally();
  private final List<String> notes = new ArrayList<>();

  Tally tally() {
    return tally;
  }

  /** What missed a bar, in words. */
  List<String> notes() {
    return List.copyOf(notes);
  }

  /** One more case of a figure whose hits have to be none; a hit is noted. */
  void mustNot(String figure, boolean hit, String words) {
    tally.add(figure, hit);
    if (hit) {
      notes.add(figure + ": " + words);
    }
  }

  void note(String words) {
    notes.add(words);
  }

  void addAll(Score other) {
    tally.addAll(other.tally);
    notes.addAll(other.notes);
  }
}
