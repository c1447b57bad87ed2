package org.jointwalk.trial;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Measurement;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;

/** Readings as a fixture without noise would take them. */
public final class Readings {

  /** Current of a resistance step, in ampere. */
  public static final double AMPS = 0.01;

  /** Currents of a junction step, in ampere. */
  public static final List<Amps> JUNCTION =
      List.of(new Amps(0.05e-3), new Amps(0.224e-3), new Amps(1e-3));

  private Readings() {}

  /** The upper plate's probe at a position. */
  public static Contact over(String id) {
    return new Contact.Pad(Plate.OVER, id);
  }

  /** The lower plate's probe at a position. */
  public static Contact under(String id) {
    return new Contact.Pad(Plate.UNDER, id);
  }

  /** An access point. */
  public static Contact point(String id) {
    return new Contact.Point(id);
  }

  /** A step between two contacts. */
  public static Step step(Kind kind, Contact a, Contact b) {
    return groups(kind, List.of(a), List.of(b));
  }

  /** A step between two groups. */
  public static Step groups(Kind kind, List<Contact> high, List<Contact> low) {
    List<Amps> currents =
        switch (kind) {
          case LOW_LEVEL, NORMAL_LEVEL -> List.of(new Amps(AMPS));
          case JUNCTION -> JUNCTION;
          case ALL_OPEN, RESIDUAL, RESIDUAL_LOADED, DISCHARGE, ISOLATION, CHARGE -> List.of();
        };
    double volts = kind == Kind.JUNCTION ? 1 : kind == Kind.ISOLATION ? 0.05 : 0.02;
    return new Step(kind, high, low, currents, new Volts(volts), 1);
  }

  /** A resistance between two contacts of one net; infinite for no path. */
  public static Measurement ohms(int seating, Contact a, Contact b, double ohms) {
    Step step = step(Kind.LOW_LEVEL, a, b);
    return new Measurement(
        seating,
        step,
        Double.isInfinite(ohms)
            ? new Reading.OverRange(0, List.of())
            : measured(ohms * AMPS, AMPS));
  }

  /** A resistance between contacts that should be apart; infinite for none. */
  public static Measurement isolation(int seating, Contact a, Contact b, double ohms) {
    return isolation(seating, List.of(a), List.of(b), ohms);
  }

  /** A resistance between groups of contacts that should be apart. */
  public static Measurement isolation(
      int seating, List<Contact> high, List<Contact> low, double ohms) {
    return new Measurement(seating, groups(Kind.ISOLATION, high, low), measured(0.05, 0.05 / ohms));
  }

  /**
   * A junction that drops 0.45 V at 10 microampere and 65 mV more with each decade, seen from
   * ground through a series resistance; infinite for no path. The source has 1 V.
   */
  public static Measurement junction(int seating, Contact ground, Contact subject, double ohms) {
    return junction(seating, ground, subject, ohms, 0, Double.POSITIVE_INFINITY);
  }

  /**
   * The same, warmer or colder, with a resistance beside it.
   *
   * @param shift added to the drop, in volt
   * @param beside from the net to ground, in ohm
   */
  public static Measurement junction(
      int seating, Contact ground, Contact subject, double ohms, double shift, double beside) {
    Step step = step(Kind.JUNCTION, ground, subject);
    List<Reading.Point> points = new ArrayList<>();
    boolean over = false;
    for (int i : new int[] {0, 1, 2, 0}) {
      double amps = step.currents().get(i).value();
      double volts = drop(amps, ohms, shift, beside);
      if (volts > 1) {
        over = true;
        amps = Double.isInfinite(ohms) ? 0 : currentAtOneVolt(ohms, shift, beside);
        volts = 1;
      }
      points.add(new Reading.Point(volts, amps));
    }
    return new Measurement(
        seating, step, over ? new Reading.OverRange(0, points) : new Reading.Measured(0, points));
  }

  /** The voltage of a junction with what is in series and beside it, at a current. */
  public static double drop(double amps, double ohms, double shift, double beside) {
    double low = 0;
    double high = 3;
    for (int i = 0; i < 80; i++) {
      double volts = (low + high) / 2;
      double flowing = 1e-5 * Math.pow(10, (volts - 0.45 - shift) / 0.065) + volts / beside;
      if (flowing < amps) {
        low = volts;
      } else {
        high = volts;
      }
    }
    return (low + high) / 2 + amps * ohms;
  }

  private static double currentAtOneVolt(double ohms, double shift, double beside) {
    double low = 0;
    double high = 1;
    for (int i = 0; i < 80; i++) {
      double amps = (low + high) / 2;
      if (drop(amps, ohms, shift, beside) < 1) {
        low = amps;
      } else {
        high = amps;
      }
    }
    return (low + high) / 2;
  }

  /** A voltage that is there without our doing. */
  public static Measurement residual(int seating, Kind kind, Contact a, Contact b, double volts) {
    return new Measurement(seating, step(kind, a, b), measured(volts, 0));
  }

  private static Reading measured(double volts, double amps) {
    return new Reading.Measured(0, List.of(new Reading.Point(volts, amps)));
  }
}
