package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Kind;

/** What the host sends during a run without an answer to each; the frame carries its place. */
public sealed interface Streamed extends Message {

  /** Id of the run. */
  long run();

  /**
   * What steps do, apart from their terminals; see 10.2 of the specification.
   *
   * @param run id
   * @param slot that keeps it
   * @param kind of step
   * @param brief whether two bits are the result
   * @param samples points before anything is decided
   * @param most points at the most
   * @param voltage largest across the terminals, in 10 nV
   * @param currents in 100 pA; one for a resistance, one to three for a junction, else none
   * @param dwell between closing and the first reading, in microseconds
   * @param limit in the unit of the kind's answer
   * @param below how far the sum of answers has to lie below it to end the step
   * @param above how far above
   * @param items none in version 1
   */
  record Setting(
      long run,
      int slot,
      Kind kind,
      boolean brief,
      int samples,
      int most,
      int voltage,
      List<Integer> currents,
      long dwell,
      long limit,
      long below,
      long above,
      List<Item> items)
      implements Streamed {

    static final int TYPE = 0x41;

    private static final int MOST_CURRENTS = 3;

    public Setting {
      currents = List.copyOf(currents);
      items = List.copyOf(items);
      Ranges.u32("run", run);
      Ranges.check("slot", slot, 0, 127);
      boolean junction = kind == Kind.JUNCTION;
      Ranges.check("samples", samples, 1, junction ? 1 : Taken.MOST_POINTS);
      Ranges.check("most", most, samples, junction ? 1 : Taken.MOST_POINTS);
      Ranges.check("voltage", voltage, 0, Integer.MAX_VALUE);
      Ranges.check(
          "the number of currents of " + kind,
          currents.size(),
          junction || kind.isResistance() ? 1 : 0,
          junction ? MOST_CURRENTS : kind.isResistance() ? 1 : 0);
      for (int current : currents) {
        Ranges.measure("current", current);
        if (current == 0) {
          throw new IllegalArgumentException("a current of zero measures nothing");
        }
      }
      Ranges.u32("dwell", dwell);
      Ranges.u32("limit", limit);
      Ranges.u32("below", below);
      Ranges.u32("above", above);
    }

    /** The same for another run and slot. */
    Setting at(long otherRun, int otherSlot) {
      return new Setting(
          otherRun, otherSlot, kind, brief, samples, most, voltage, currents, dwell, limit, below,
          above, items);
    }

    static Setting read(In in) throws Malformed {
      long run = in.u32();
      int slot = in.u8();
      Kind kind = KindCode.read(in);
      boolean brief = in.flag();
      int samples = in.u8();
      int most = in.u8();
      int voltage = in.measure();
      int count = in.u8();
      In.ask(count <= MOST_CURRENTS);
      List<Integer> currents = new ArrayList<>(count);
      for (int i = 0; i < count; i++) {
        currents.add(in.measure());
      }
      in.zeros(4 * (MOST_CURRENTS - count));
      return new Setting(
          run,
          slot,
          kind,
          brief,
          samples,
          most,
          voltage,
          currents,
          in.u32(),
          in.u32(),
          in.u32(),
          in.u32(),
          Item.readAll(in));
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      Out out =
          new Out()
              .u32(run)
              .u8(slot)
              .u8(KindCode.of(kind))
              .flag(brief)
              .u8(samples)
              .u8(most)
              .u32(voltage)
              .u8(currents.size());
      currents.forEach(out::u32);
      out.zeros(4 * (MOST_CURRENTS - currents.size()));
      out.u32(dwell).u32(limit).u32(below).u32(above);
      items.forEach(item -> item.write(out));
      return out.done();
    }
  }

  /**
   * Fills a slot with channels.
   *
   * @param run id
   * @param slot to fill
   * @param more whether it keeps what it has
   * @param first channel of the bits, a multiple of 8
   * @param bits bit b of byte a stands for channel first + 8 a + b
   */
  record SetBits(long run, int slot, boolean more, int first, Bytes bits) implements Streamed {

    static final int TYPE = 0x42;

    /** Bytes of bits that fit one frame. */
    static final int MOST_BYTES = Frame.MOST_PAYLOAD - 8;

    public SetBits {
      Ranges.u32("run", run);
      Ranges.u8("slot", slot);
      Ranges.u16("first", first);
      if (first % 8 != 0) {
        throw new IllegalArgumentException("the first channel is a multiple of 8, not " + first);
      }
      Ranges.check("the number of bytes", bits.size(), 1, MOST_BYTES);
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u32(run).u8(slot).u8(more ? MORE : ANEW).u16(first).bytes(bits).done();
    }
  }

  /**
   * Changes a slot.
   *
   * @param run id
   * @param slot to fill
   * @param base slot whose content is taken first
   * @param channels each is taken out if it is in, and put in if it is not
   */
  record SetChange(long run, int slot, int base, List<Integer> channels) implements Streamed {

    /** Channels that fit one frame. */
    static final int MOST = (Frame.MOST_PAYLOAD - 7) / 2;

    public SetChange {
      channels = List.copyOf(channels);
      Ranges.u32("run", run);
      Ranges.u8("slot", slot);
      Ranges.u8("base", base);
      Ranges.check("the number of channels", channels.size(), 0, MOST);
      channels.forEach(channel -> Ranges.u16("channel", channel));
    }

    @Override
    public int type() {
      return SetBits.TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u32(run).u8(slot).u8(CHANGE).u8(base).u16s(channels).done();
    }
  }

  /** The forms of a set on the line. */
  int ANEW = 0;

  int MORE = 1;
  int CHANGE = 2;

  static Streamed readSet(In in) throws Malformed {
    long run = in.u32();
    int slot = in.u8();
    int form = in.u8();
    In.ask(form <= CHANGE);
    if (form == CHANGE) {
      int base = in.u8();
      List<Integer> channels = in.u16s(in.left() / 2);
      in.end();
      return new SetChange(run, slot, base, channels);
    }
    int first = in.u16();
    // No bits at all is a length that the table does not allow.
    int size = Math.max(1, in.left());
    return new SetBits(run, slot, form == MORE, first, in.bytes(size));
  }

  /**
   * Steps that follow those already sent.
   *
   * @param run id
   * @param first index of the first one
   * @param steps at least one
   */
  record Steps(long run, long first, List<WireStep> steps) implements Streamed {

    static final int TYPE = 0x43;

    /** Bytes of steps that fit one frame. */
    static final int MOST_BYTES = Frame.MOST_PAYLOAD - 9;

    public Steps {
      steps = List.copyOf(steps);
      Ranges.u32("run", run);
      Ranges.u32("first", first);
      Ranges.check("the number of steps", steps.size(), 1, MOST_BYTES / 2);
    }

    static Steps read(In in) throws Malformed {
      long run = in.u32();
      long first = in.u32();
      int count = in.u8();
      List<WireStep> steps = new ArrayList<>();
      for (int i = 0; i < count; i++) {
        steps.add(WireStep.read(in));
      }
      in.end();
      return new Steps(run, first, steps);
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      Out out = new Out().u32(run).u32(first).u8(steps.size());
      steps.forEach(step -> step.write(out));
      return out.done();
    }
  }

  /**
   * Allows more steps to be taken.
   *
   * @param run id
   * @param limit steps with an index below this may be taken
   */
  record Credit(long run, long limit) implements Streamed {

    static final int TYPE = 0x44;

    public Credit {
      Ranges.u32("run", run);
      Ranges.u32("limit", limit);
    }

    static Credit read(In in) throws Malformed {
      in.exactly(8);
      return new Credit(in.u32(), in.u32());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u32(run).u32(limit).done();
    }
  }
}
