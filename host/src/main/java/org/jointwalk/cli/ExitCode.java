package org.jointwalk.cli;

import java.util.LinkedHashMap;
import java.util.Map;

/** How the program ends; scripts rely on these numbers. One is never used on purpose. */
enum ExitCode {
  GOOD(0, "done; after a pass: all that this set-up can show is good"),
  FAULT_FOUND(10, "a fault was found"),
  UNDECIDED(11, "no fault was found, but something is undecided or was not seen and not accepted"),
  INPUT(2, "what you gave cannot be used"),
  FIXTURE(3, "the fixture or the link to it failed"),
  SAFETY(4, "refused, because going on could hurt someone or burn a board"),
  JOB_LOG(5, "the job log cannot be read or written"),
  INTERRUPTED(6, "stopped part-way; the pass can be resumed"),
  DEFECT(70, "a defect of this program");

  private final int number;
  private final String meaning;

  ExitCode(int number, String meaning) {
    this.number = number;
    this.meaning = meaning;
  }

  int number() {
    return number;
  }

  /** What the number tells a script, for the help text. */
  String meaning() {
    return meaning;
  }

  /** All numbers with their meanings, as the help text lists them. */
  static Map<String, String> list() {
    Map<String, String> list = new LinkedHashMap<>();
    for (ExitCode code : values()) {
      list.put(Integer.toString(code.number), code.meaning);
    }
    return list;
  }
}
