package org.jointwalk.files;

import java.util.ArrayList;
import java.util.List;

/** Gathers what is wrong with one file while it is read. For one thread. */
final class Faults {

  private final String file;
  private final List<Fault> errors = new ArrayList<>();
  private final List<Fault> warnings = new ArrayList<>();

  /**
   * @param file as the caller named it
   */
  Faults(String file) {
    this.file = file;
  }

  String file() {
    return file;
  }

  void error(Fault fault) {
    errors.add(fault);
  }

  void warning(Fault fault) {
    warnings.add(fault);
  }

  boolean any() {
    return !errors.isEmpty();
  }

  List<Fault> errors() {
    return List.copyOf(errors);
  }

  List<Fault> warnings() {
    return List.copyOf(warnings);
  }
}
