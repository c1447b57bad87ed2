package org.jointwalk.report;

import java.util.List;
import java.util.Optional;

/**
 * Who works here, for the head of a report.
 *
 * @param name of the shop, or empty
 * @param lines below it: address, telephone, whatever the shop wants to be known
 * @param logo a picture as {@code data:} address, ready to stand in a page
 */
public record Shop(String name, List<String> lines, Optional<String> logo) {

  /** A shop of which nothing is known. */
  public static final Shop UNNAMED = new Shop("", List.of(), Optional.empty());

  public Shop {
    lines = List.copyOf(lines);
    if (logo.isPresent() && !logo.get().startsWith("data:image/")) {
      throw new IllegalArgumentException("a logo is a picture inside the page, not " + logo.get());
    }
  }
}
