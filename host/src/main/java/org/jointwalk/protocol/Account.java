package org.jointwalk.protocol;

/**
 * A fixture's account of a run, as clause 7.3 of the specification tells.
 *
 * @param run id; 0 when there was none, and then all else is 0
 * @param heard number of the last streamed frame taken
 * @param end 0 while it is under way, else a code of {@link RunEnd}
 * @param detail of the end
 * @param loaded index of the first step not yet loaded
 * @param done index of the first step without a result
 * @param credit steps below this index may be taken
 * @param checked results below this index are covered by a good bus check
 * @param records number of the last record notice sent
 */
public record Account(
    long run,
    int heard,
    int end,
    int detail,
    long loaded,
    long done,
    long credit,
    long checked,
    int records) {

  /** No run in this session yet. */
  public static final Account NONE = new Account(0, 0, 0, 0, 0, 0, 0, 0, 0);

  static final int SIZE = 27;

  public Account {
    Ranges.u32("run", run);
    Ranges.u16("heard", heard);
    Ranges.u8("end", end);
    Ranges.u16("detail", detail);
    Ranges.u32("loaded", loaded);
    Ranges.u32("done", done);
    Ranges.u32("credit", credit);
    Ranges.u32("checked", checked);
    Ranges.u16("records", records);
  }

  static Account read(In in) throws Malformed {
    return new Account(
        in.u32(), in.u16(), in.u8(), in.u16(), in.u32(), in.u32(), in.u32(), in.u32(), in.u16());
  }

  Out write(Out out) {
    return out.u32(run)
        .u16(heard)
        .u8(end)
        .u16(detail)
        .u32(loaded)
        .u32(done)
        .u32(credit)
        .u32(checked)
        .u16(records);
  }
}
