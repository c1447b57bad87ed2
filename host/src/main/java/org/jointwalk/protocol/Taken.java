package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.List;

/** What a fixture says of one step it has dealt with. */
public sealed interface Taken {

  /** Points that one result can have. */
  int MOST_POINTS = 24;

  /** What it takes on the line. */
  void write(Out out);

  /**
   * Measured.
   *
   * @param points at least one
   */
  record Measured(List<Raw> points) implements Taken {

    public Measured {
      points = List.copyOf(points);
      Ranges.check("the number of points", points.size(), 1, MOST_POINTS);
    }

    @Override
    public void write(Out out) {
      writePoints(0, points, out);
    }
  }

  /**
   * More resistance than the range can read.
   *
   * @param points what was read
   */
  record OverRange(List<Raw> points) implements Taken {

    public OverRange {
      points = List.copyOf(points);
      Ranges.check("the number of points", points.size(), 0, MOST_POINTS);
    }

    @Override
    public void write(Out out) {
      writePoints(1, points, out);
    }
  }

  /**
   * Not taken.
   *
   * @param reason a code of {@link StepRefusal}, or of a later version
   */
  record Refused(int reason) implements Taken {

    public Refused {
      Ranges.check("reason", reason, 1, Ranges.U8);
    }

    @Override
    public void write(Out out) {
      out.u8(2 << 5).u8(reason);
    }
  }

  private static void writePoints(int status, List<Raw> points, Out out) {
    out.u8((status << 5) | points.size());
    points.forEach(point -> point.write(out));
  }

  static Taken read(In in) throws Malformed {
    int head = in.u8();
    int status = head >> 5;
    int count = head & 0x1F;
    In.ask(status <= 2 && count <= (status == 2 ? 0 : MOST_POINTS));
    if (status == 2) {
      return new Refused(in.u8());
    }
    List<Raw> points = new ArrayList<>(count);
    for (int i = 0; i < count; i++) {
      points.add(Raw.read(in));
    }
    return status == 0 ? new Measured(points) : new OverRange(points);
  }

  /** Bytes that it takes on the line. */
  default int size() {
    Out out = new Out();
    write(out);
    return out.done().size();
  }
}
