package org.jointwalk.protocol;

import java.util.Optional;

/** A word that is a number on the line. */
public interface Coded {

  /** The number. */
  int code();

  /** The word of an enumeration with a number, if there is one. */
  static <E extends Enum<E> & Coded> Optional<E> of(Class<E> words, int code) {
    for (E word : words.getEnumConstants()) {
      if (word.code() == code) {
        return Optional.of(word);
      }
    }
    return Optional.empty();
  }
}
