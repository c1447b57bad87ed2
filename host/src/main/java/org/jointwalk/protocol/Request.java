package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** What the host asks; each is answered by one frame. */
public sealed interface Request extends Message {

  /**
   * Opens a session.
   *
   * @param lowest protocol version that the host speaks
   * @param highest version
   * @param takeOver whether another program's session is to be ended
   * @param nonce random; its low 16 bits are not zero
   * @param replaces nonce of the host's own earlier session, 0 for none
   */
  record Hello(int lowest, int highest, boolean takeOver, long nonce, long replaces)
      implements Request {

    static final int TYPE = 0x01;

    /** What every HELLO and every WELCOME begins with. */
    static final Bytes MAGIC = Bytes.ofHex("6a776678");

    public Hello {
      Ranges.check("the lowest version", lowest, 1, Ranges.U8);
      Ranges.check("the highest version", highest, lowest, Ranges.U8);
      Ranges.u32("nonce", nonce);
      Ranges.check("the low half of the nonce", nonce & Ranges.U16, 1, Ranges.U16);
      Ranges.u32("replaces", replaces);
    }

    /** What the frames of this session carry. */
    public int session() {
      return (int) (nonce & Ranges.U16);
    }

    static Hello read(In in) throws Malformed {
      in.exactly(16);
      In.ask(in.bytes(MAGIC.size()).equals(MAGIC));
      int lowest = in.u8();
      int highest = in.u8();
      boolean takeOver = in.flag();
      in.zeros(1);
      return new Hello(lowest, highest, takeOver, in.u32(), in.u32());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out()
          .bytes(MAGIC)
          .u8(lowest)
          .u8(highest)
          .flag(takeOver)
          .zeros(1)
          .u32(nonce)
          .u32(replaces)
          .done();
    }
  }

  /**
   * Asks for capability items.
   *
   * @param first number of the first one wanted
   */
  record Capabilities(int first) implements Request {

    static final int TYPE = 0x02;

    public Capabilities {
      Ranges.u8("first", first);
    }

    static Capabilities read(In in) throws Malformed {
      in.exactly(1);
      return new Capabilities(in.u8());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u8(first).done();
    }
  }

  /**
   * Says what is clamped, and which classes of channels there are.
   *
   * @param present the parts
   * @param setUp name of the set-up
   * @param classes what channels can touch; a channel's place counts them from 1
   */
  record Declare(Set<Part> present, String setUp, List<Touch> classes) implements Request {

    static final int TYPE = 0x03;

    private static final int MOST_CLASSES = 15;

    public Declare {
      present = Set.copyOf(present);
      classes = List.copyOf(classes);
      Ranges.text("the name of the set-up", setUp, 1, 32);
      Ranges.check("the number of classes", classes.size(), 0, MOST_CLASSES);
      boolean board = present.contains(Part.UPPER_BOARD) || present.contains(Part.LOWER_BOARD);
      for (Touch touch : classes) {
        if (board == (touch.kind() == Touch.Kind.BARE)) {
          throw new IllegalArgumentException(
              touch.kind() + " cannot be declared with " + present + " in the fixture");
        }
      }
    }

    static Declare read(In in) throws Malformed {
      int bits = in.u8();
      Set<Part> present = EnumSet.noneOf(Part.class);
      for (int bit = 0; bits >> bit != 0; bit++) {
        if ((bits >> bit) % 2 == 1) {
          present.add(
              Coded.of(Part.class, bit).orElseThrow(() -> new Malformed(Refusal.BAD_VALUE, 0)));
        }
      }
      String setUp = in.text(1, 32);
      int count = in.u8();
      In.ask(count <= MOST_CLASSES);
      List<Touch> classes = new ArrayList<>(count);
      for (int i = 0; i < count; i++) {
        classes.add(Touch.read(in));
      }
      in.end();
      return new Declare(present, setUp, classes);
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      int bits = 0;
      for (Part part : present) {
        bits |= 1 << part.code();
      }
      Out out = new Out().u8(bits).text(setUp).u8(classes.size());
      classes.forEach(touch -> touch.write(out));
      return out.done();
    }
  }

  /** A part that can be clamped; its code is the number of its bit. */
  enum Part implements Coded {
    UPPER_BOARD(0),
    LOWER_BOARD(1),
    INTERPOSER(2),
    SHORTING_PLATE(3);

    private final int code;

    Part(int code) {
      this.code = code;
    }

    @Override
    public int code() {
      return code;
    }
  }

  /**
   * Puts channels in their places.
   *
   * @param first channel, even
   * @param places one for each channel from there on: 0 never closed, n the n-th class declared
   */
  record Channels(int first, List<Integer> places) implements Request {

    static final int TYPE = 0x04;

    /** Channels that fit one frame. */
    static final int MOST = 474;

    public Channels {
      places = List.copyOf(places);
      Ranges.check("the first channel", first, 0, Ranges.U16 - 1);
      Ranges.check("the number of channels", places.size(), 1, MOST);
      Ranges.check("the channel after the last", first + places.size(), 1, Ranges.U16);
      if (first % 2 != 0) {
        throw new IllegalArgumentException("the first channel is even, not " + first);
      }
      for (int place : places) {
        Ranges.check("a place", place, 0, 15);
      }
    }

    static Channels read(In in) throws Malformed {
      int first = in.u16();
      int count = in.u16();
      In.ask(count >= 1 && count <= MOST);
      Bytes packed = in.bytes((count + 1) / 2);
      in.end();
      List<Integer> places = new ArrayList<>(count);
      for (int i = 0; i < count; i++) {
        places.add((packed.at(i / 2) >> (4 * (i % 2))) & 0xF);
      }
      In.ask(count % 2 == 0 || packed.at(count / 2) >> 4 == 0);
      return new Channels(first, places);
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      Out out = new Out().u16(first).u16(places.size());
      for (int i = 0; i < places.size(); i += 2) {
        int high = i + 1 < places.size() ? places.get(i + 1) : 0;
        out.u8(places.get(i) | (high << 4));
      }
      return out.done();
    }
  }

  /**
   * Begins a run.
   *
   * @param run id, not 0
   * @param first index of its first step
   * @param count number of steps
   * @param credit steps below this index may be taken
   * @param declaration check of what the host believes to be declared
   */
  record Run(long run, long first, long count, long credit, long declaration) implements Request {

    static final int TYPE = 0x05;

    public Run {
      Ranges.check("run", run, 1, Ranges.U32);
      Ranges.u32("first", first);
      Ranges.check("count", count, 1, Ranges.U32);
      Ranges.check("the index after the last step", first + count, 1, Ranges.U32);
      Ranges.u32("credit", credit);
      Ranges.u32("declaration", declaration);
    }

    static Run read(In in) throws Malformed {
      in.exactly(20);
      return new Run(in.u32(), in.u32(), in.u32(), in.u32(), in.u32());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u32(run).u32(first).u32(count).u32(credit).u32(declaration).done();
    }
  }

  /** Ends a run, if there is one, with all channels open. */
  record Stop() implements Request {

    static final int TYPE = 0x06;

    static Stop read(In in) throws Malformed {
      in.exactly(0);
      return new Stop();
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return Bytes.NONE;
    }
  }

  /** Asks how things are, and says that the host is alive. */
  record Status() implements Request {

    static final int TYPE = 0x07;

    static Status read(In in) throws Malformed {
      in.exactly(0);
      return new Status();
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return Bytes.NONE;
    }
  }
}
