package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;

/** What a fixture sends unasked. */
public sealed interface Notice extends Message {

  /** A notice that is numbered, so that a lost one is missed. */
  sealed interface Recorded extends Notice {

    /** Id of the run. */
    long run();

    /** Number of the last streamed frame taken. */
    int heard();
  }

  /**
   * Where the results of a frame belong.
   *
   * @param run id
   * @param heard number of the last streamed frame taken
   * @param first index of the first result
   * @param at clock at the end of the last step, in microseconds
   * @param took time spent on these steps, in microseconds
   * @param closures switches closed for them
   */
  record Span(long run, int heard, long first, long at, long took, long closures) {

    static final int SIZE = 22;

    public Span {
      Ranges.u32("run", run);
      Ranges.u16("heard", heard);
      Ranges.u32("first", first);
      Ranges.u32("at", at);
      Ranges.u32("took", took);
      Ranges.u32("closures", closures);
    }

    static Span read(In in) throws Malformed {
      return new Span(in.u32(), in.u16(), in.u32(), in.u32(), in.u32(), in.u32());
    }

    Out write(Out out) {
      return out.u32(run).u16(heard).u32(first).u32(at).u32(took).u32(closures);
    }
  }

  /**
   * Results with their points.
   *
   * @param span where they belong
   * @param results at least one
   */
  record Results(Span span, List<Taken> results) implements Recorded {

    static final int TYPE = 0xC1;

    /** Bytes of results that fit one frame. */
    static final int MOST_BYTES = Frame.MOST_PAYLOAD - Span.SIZE - 1;

    public Results {
      results = List.copyOf(results);
      Ranges.check("the number of results", results.size(), 1, Ranges.U8);
    }

    /** Whether so many results go into one frame. */
    public static boolean fits(List<Taken> results) {
      return results.size() <= Ranges.U8
          && results.stream().mapToInt(Taken::size).sum() <= MOST_BYTES;
    }

    static Results read(In in) throws Malformed {
      Span span = Span.read(in);
      int count = in.u8();
      List<Taken> results = new ArrayList<>();
      for (int i = 0; i < count; i++) {
        results.add(Taken.read(in));
      }
      in.end();
      return new Results(span, results);
    }

    @Override
    public long run() {
      return span.run();
    }

    @Override
    public int heard() {
      return span.heard();
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      Out out = span.write(new Out()).u8(results.size());
      results.forEach(result -> result.write(out));
      return out.done();
    }
  }

  /** The result of a brief step. */
  enum Brief implements Coded {
    BELOW(0),
    ABOVE(1),
    UNDECIDED(2),
    REFUSED(3);

    private final int code;

    Brief(int code) {
      this.code = code;
    }

    @Override
    public int code() {
      return code;
    }
  }

  /**
   * Results of brief steps.
   *
   * @param span where they belong
   * @param answers at least one
   */
  record Bits(Span span, List<Brief> answers) implements Recorded {

    static final int TYPE = 0xC2;

    /** Answers that fit one frame. */
    static final int MOST = 4 * (Frame.MOST_PAYLOAD - Span.SIZE - 2);

    public Bits {
      answers = List.copyOf(answers);
      Ranges.check("the number of results", answers.size(), 1, MOST);
    }

    static Bits read(In in) throws Malformed {
      Span span = Span.read(in);
      int count = in.u16();
      In.ask(count >= 1 && count <= MOST);
      Bytes packed = in.bytes((count + 3) / 4);
      in.end();
      List<Brief> answers = new ArrayList<>(count);
      for (int i = 0; i < 4 * packed.size(); i++) {
        int code = (packed.at(i / 4) >> (2 * (i % 4))) & 3;
        if (i < count) {
          Coded.of(Brief.class, code).ifPresent(answers::add);
        } else {
          In.ask(code == 0);
        }
      }
      return new Bits(span, answers);
    }

    @Override
    public long run() {
      return span.run();
    }

    @Override
    public int heard() {
      return span.heard();
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      Out out = span.write(new Out()).u16(answers.size());
      for (int i = 0; i < answers.size(); i += 4) {
        int packed = 0;
        for (int j = i; j < Math.min(i + 4, answers.size()); j++) {
          packed |= answers.get(j).code() << (2 * (j - i));
        }
        out.u8(packed);
      }
      return out.done();
    }
  }

  /**
   * The buses were checked against each other.
   *
   * @param run id
   * @param heard number of the last streamed frame taken
   * @param upto results below this index are covered
   * @param bad whether there is a connection between them
   * @param volt between the worst pair, in 10 nV
   * @param amp through it, in 100 pA
   */
  record Check(long run, int heard, long upto, boolean bad, int volt, int amp) implements Recorded {

    static final int TYPE = 0xC3;

    public Check {
      Ranges.u32("run", run);
      Ranges.u16("heard", heard);
      Ranges.u32("upto", upto);
      Ranges.measure("volt", volt);
      Ranges.measure("amp", amp);
    }

    static Check read(In in) throws Malformed {
      in.exactly(19);
      return new Check(in.u32(), in.u16(), in.u32(), in.flag(), in.measure(), in.measure());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u32(run).u16(heard).u32(upto).flag(bad).u32(volt).u32(amp).done();
    }
  }

  /**
   * How far the stream was taken.
   *
   * @param run id
   * @param heard number of the last streamed frame taken
   * @param gap whether a frame was dropped because it was not the next
   * @param loaded index of the first step not yet loaded
   * @param credit steps below this index may be taken
   */
  record Heard(long run, int heard, boolean gap, long loaded, long credit) implements Notice {

    static final int TYPE = 0xC4;

    public Heard {
      Ranges.u32("run", run);
      Ranges.u16("heard", heard);
      Ranges.u32("loaded", loaded);
      Ranges.u32("credit", credit);
    }

    static Heard read(In in) throws Malformed {
      in.exactly(15);
      return new Heard(in.u32(), in.u16(), in.flag(), in.u32(), in.u32());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u32(run).u16(heard).flag(gap).u32(loaded).u32(credit).done();
    }
  }

  /**
   * A run is over.
   *
   * @param account of it; its end is not 0
   */
  record End(Account account) implements Recorded {

    static final int TYPE = 0xC5;

    public End {
      Ranges.check("run", account.run(), 1, Ranges.U32);
      Ranges.check("end", account.end(), 1, Ranges.U8);
    }

    static End read(In in) throws Malformed {
      in.exactly(Account.SIZE);
      return new End(Account.read(in));
    }

    @Override
    public long run() {
      return account.run();
    }

    @Override
    public int heard() {
      return account.heard();
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return account.write(new Out()).done();
    }
  }

  /**
   * Something happened at the fixture.
   *
   * @param kind 1 lid opened, 2 lid closed, 3 button pressed; others may come
   * @param count of the lid or the button, after it
   * @param at clock, in microseconds
   */
  record Event(int kind, long count, long at) implements Notice {

    static final int TYPE = 0xC6;

    public Event {
      Ranges.u8("kind", kind);
      Ranges.u32("count", count);
      Ranges.u32("at", at);
    }

    static Event read(In in) throws Malformed {
      in.exactly(9);
      return new Event(in.u8(), in.u32(), in.u32());
    }

    @Override
    public int type() {
      return TYPE;
    }

    @Override
    public Bytes payload() {
      return new Out().u8(kind).u32(count).u32(at).done();
    }
  }
}
