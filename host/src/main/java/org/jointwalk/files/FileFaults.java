package org.jointwalk.files;

import java.util.List;
import java.util.stream.Collectors;

/** A file cannot be used as it is. Carries all that is wrong with it, in the order found. */
public final class FileFaults extends Exception {

  private static final long serialVersionUID = 1L;

  private final transient List<Fault> faults;
  private final transient List<Fault> warnings;

  FileFaults(String file, List<Fault> faults, List<Fault> warnings) {
    super(
        (faults.size() == 1 ? "1 fault in " : faults.size() + " faults in ")
            + file
            + faults.stream().map(fault -> "\n  " + fault).collect(Collectors.joining()));
    this.faults = List.copyOf(faults);
    this.warnings = List.copyOf(warnings);
  }

  /** What has to be put right, at least one. */
  public List<Fault> faults() {
    return faults;
  }

  /** What is doubtful besides. */
  public List<Fault> warnings() {
    return warnings;
  }
}
