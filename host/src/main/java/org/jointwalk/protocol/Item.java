package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;

/**
 * A part of a message that says itself what it is and how long.
 *
 * @param tag what it is; from 0x80 on a reader that does not know it passes it over
 * @param value at most 255 bytes
 */
public record Item(int tag, Bytes value) {

  public Item {
    Ranges.u8("tag", tag);
    Ranges.check("the length of an item", value.size(), 0, Ranges.U8);
  }

  /** Whether a reader that does not know the tag may pass it over. */
  public boolean mayBeIgnored() {
    return tag >= 0x80;
  }

  /** Bytes that it takes on the line. */
  int size() {
    return 2 + value.size();
  }

  void write(Out out) {
    out.u8(tag).u8(value.size()).bytes(value);
  }

  /** All that is left of a payload. */
  static List<Item> readAll(In in) throws Malformed {
    List<Item> items = new ArrayList<>();
    while (in.left() > 0) {
      items.add(new Item(in.u8(), in.bytes(in.u8())));
    }
    return items;
  }
}
