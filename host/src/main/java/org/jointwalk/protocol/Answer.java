package org.jointwalk.protocol;

import java.util.List;

/** What a fixture answers to a request; the frame carries the request's session and number. */
public sealed interface Answer extends Message {

  /**
   * It will not do it.
   *
   * @param request type of the request
   * @param code a code of {@link Refusal}, or of a later version
   * @param detail as the code says
   */
  record Refused(int request, int code, long detail) implements Answer {

    static final int TYPE = 0x80;

    public Refused {
      Ranges.u8("request", request);
      Ranges.check("code", code, 1, Ranges.U16);
      Ranges.u32("detail", detail);
    }

    static Refused read(In in) throws Malformed {
      in.exactly(7);
      return new Refused(in.u8(), in.u16(), in.u32());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u8(request).u16(code).u32(detail).done();
    }
  }

  /**
   * A session is open.
   *
   * @param version that is spoken from now on
   * @param nonce of the HELLO
   * @param boot another value at every start
   * @param resetCause why the fixture started
   * @param build 64 bits of a hash of the firmware
   * @param lid 0 closed, 1 open, 2 there is none
   * @param lidCount how often it was opened since the start
   * @param buttonCount how often the button was pressed since the start
   * @param window bytes that may be on their way to the fixture
   * @param channels how many it has
   * @param steps that its program holds
   * @param settings slots
   * @param sets slots
   * @param points most points of one step
   * @param clamp voltage at which the protection holds the buses, in 10 nV
   * @param power budget of closed channels in mW
   * @param capabilities check over all capability items
   * @param clock now, in microseconds
   */
  record Welcome(
      int version,
      long nonce,
      long boot,
      int resetCause,
      long build,
      int lid,
      long lidCount,
      long buttonCount,
      int window,
      int channels,
      int steps,
      int settings,
      int sets,
      int points,
      int clamp,
      long power,
      long capabilities,
      long clock)
      implements Answer {

    static final int TYPE = 0x81;

    private static final int LEAST_WINDOW = Frame.MOST_ENCODED + 1;

    public Welcome {
      Ranges.check("version", version, 1, Ranges.U8);
      Ranges.u32("nonce", nonce);
      Ranges.check("boot", boot, 0, Long.MAX_VALUE);
      Ranges.u8("reset_cause", resetCause);
      Ranges.check("lid", lid, 0, 2);
      Ranges.u32("lid_count", lidCount);
      Ranges.u32("button_count", buttonCount);
      Ranges.check("window", window, LEAST_WINDOW, Ranges.U16);
      Ranges.check("channels", channels, 1, Ranges.U16);
      Ranges.check("steps", steps, 16, Ranges.U16);
      Ranges.check("settings", settings, 8, 128);
      if (sets != 0) {
        Ranges.check("sets", sets, 4, Ranges.U8);
      }
      Ranges.check("points", points, 1, Taken.MOST_POINTS);
      Ranges.check("clamp", clamp, 0, Integer.MAX_VALUE);
      Ranges.u32("power", power);
      Ranges.u32("capabilities", capabilities);
      Ranges.u32("clock", clock);
    }

    static Welcome read(In in) throws Malformed {
      in.exactly(60);
      In.ask(in.bytes(Request.Hello.MAGIC.size()).equals(Request.Hello.MAGIC));
      return new Welcome(
          in.u8(),
          in.u32(),
          in.u64(),
          in.u8(),
          in.u64(),
          in.u8(),
          in.u32(),
          in.u32(),
          in.u16(),
          in.u16(),
          in.u16(),
          in.u8(),
          in.u8(),
          in.u8(),
          in.measure(),
          in.u32(),
          in.u32(),
          in.u32());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out()
          .bytes(Request.Hello.MAGIC)
          .u8(version)
          .u32(nonce)
          .u64(boot)
          .u8(resetCause)
          .u64(build)
          .u8(lid)
          .u32(lidCount)
          .u32(buttonCount)
          .u16(window)
          .u16(channels)
          .u16(steps)
          .u8(settings)
          .u8(sets)
          .u8(points)
          .u32(clamp)
          .u32(power)
          .u32(capabilities)
          .u32(clock)
          .done();
    }
  }

  /**
   * Some capability items.
   *
   * @param first number of the first one
   * @param total how many there are
   * @param items whole ones, in order
   */
  record Page(int first, int total, List<Item> items) implements Answer {

    static final int TYPE = 0x82;

    public Page {
      items = List.copyOf(items);
      Ranges.u8("total", total);
      Ranges.check("first", first, 0, total - 1);
      Ranges.check("the number of items", items.size(), 1, total - first);
    }

    static Page read(In in) throws Malformed {
      return new Page(in.u8(), in.u8(), Item.readAll(in));
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      Out out = new Out().u8(first).u8(total);
      items.forEach(item -> item.write(out));
      return out.done();
    }
  }

  /**
   * What the fixture now holds about what is clamped.
   *
   * @param declaration check over it
   */
  record Declared(long declaration) implements Answer {

    static final int TYPE = 0x83;

    public Declared {
      Ranges.u32("declaration", declaration);
    }

    static Declared read(In in) throws Malformed {
      in.exactly(4);
      return new Declared(in.u32());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u32(declaration).done();
    }
  }

  /**
   * How things are.
   *
   * @param doing 0 idle, 1 measuring, 2 waiting for steps, 3 waiting for credit, 4 fault
   * @param lid 0 closed, 1 open, 2 there is none
   * @param lidCount how often it was opened since the start
   * @param buttonCount how often the button was pressed since the start
   * @param fault what is broken, 0 for nothing
   * @param clock now, in microseconds
   * @param dropped frames since the start, modulo 2^16
   * @param oversize frames since the start, modulo 2^16
   * @param overrun bytes lost since the start, modulo 2^16
   * @param account of the run under way, else of the last one of the session
   */
  record State(
      int doing,
      int lid,
      long lidCount,
      long buttonCount,
      int fault,
      long clock,
      int dropped,
      int oversize,
      int overrun,
      Account account)
      implements Answer {

    static final int TYPE = 0x84;

    public State {
      Ranges.check("doing", doing, 0, 4);
      Ranges.check("lid", lid, 0, 2);
      Ranges.u32("lid_count", lidCount);
      Ranges.u32("button_count", buttonCount);
      Ranges.u16("fault", fault);
      Ranges.u32("clock", clock);
      Ranges.u16("dropped", dropped);
      Ranges.u16("oversize", oversize);
      Ranges.u16("overrun", overrun);
    }

    static State read(In in) throws Malformed {
      in.exactly(22 + Account.SIZE);
      return new State(
          in.u8(),
          in.u8(),
          in.u32(),
          in.u32(),
          in.u16(),
          in.u32(),
          in.u16(),
          in.u16(),
          in.u16(),
          Account.read(in));
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      Out out =
          new Out()
              .u8(doing)
              .u8(lid)
              .u32(lidCount)
              .u32(buttonCount)
              .u16(fault)
              .u32(clock)
              .u16(dropped)
              .u16(oversize)
              .u16(overrun);
      return account.write(out).done();
    }
  }
}
