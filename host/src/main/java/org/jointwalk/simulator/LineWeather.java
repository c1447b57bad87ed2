package org.jointwalk.simulator;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a {@link LineFaults} does. Shares are of frames, in each direction.
 *
 * @param drop share that never arrives
 * @param corrupt share with one bit turned round
 * @param duplicate share that arrives twice
 * @param delay share that is held back, with all that follows
 * @param delayMicros how long
 * @param garbage share before which bytes come that nobody sent, as at a wrong rate
 * @param vanishes when the line dies, in microseconds after the first use; negative for never
 * @param gone how long it stays away, in microseconds
 * @param rate bytes a second; 0 when sending takes no time
 * @param latency whether a frame needs 2 ms, three in ten 16 ms and one in a thousand 150 ms more
 */
public record LineWeather(
    double drop,
    double corrupt,
    double duplicate,
    double delay,
    long delayMicros,
    double garbage,
    long vanishes,
    long gone,
    int rate,
    boolean latency) {

  /** Nothing happens, at once. */
  public static final LineWeather FINE = new LineWeather(0, 0, 0, 0, 0, 0, -1, 0, 0, false);

  private static final Map<String, Integer> RATES =
      new TreeMap<>(Map.of("115200", 11_520, "921600", 92_160, "cdc", 800_000));

  private static final String ALLOWED =
      "Write for example drop=0.01,corrupt=0.01,duplicate=0.01,garbage=0.01,delay=0.02:50,"
          + "stall=0.001:400,vanish=5000:2000,rate=115200,latency=usb: shares of frames, times"
          + " in milliseconds; the rate is one of 115200, 921600, cdc.";

  public LineWeather {
    for (double share : List.of(drop, corrupt, duplicate, delay, garbage)) {
      if (!(share >= 0 && share <= 1)) {
        throw new IllegalArgumentException("a share of frames lies from 0 to 1, not " + share);
      }
    }
    if (delayMicros < 0 || gone < 0 || rate < 0) {
      throw new IllegalArgumentException("times and rates are not negative");
    }
  }

  /**
   * Weather as it is typed, such as {@code drop=0.01,delay=0.02:50,vanish=5000:2000,rate=115200}:
   * shares of frames, times in milliseconds. A stall is a delay that is long.
   *
   * @throws IllegalArgumentException with what is wrong and what is allowed
   */
  public static LineWeather of(String typed) {
    LineWeather weather = FINE;
    for (String part : typed.split(",", -1)) {
      int equals = part.indexOf('=');
      if (equals < 0) {
        throw new IllegalArgumentException("\"" + part + "\" has no value. " + ALLOWED);
      }
      String word = part.substring(0, equals).strip().toLowerCase(Locale.ROOT);
      weather = weather.with(word, part.substring(equals + 1).strip());
    }
    return weather;
  }

  private LineWeather with(String word, String value) {
    return switch (word) {
      case "drop" -> changed(number(value), corrupt, duplicate, garbage);
      case "corrupt" -> changed(drop, number(value), duplicate, garbage);
      case "duplicate" -> changed(drop, corrupt, number(value), garbage);
      case "garbage" -> changed(drop, corrupt, duplicate, number(value));
      case "delay", "stall" -> {
        List<Double> two = two(value);
        yield new LineWeather(
            drop,
            corrupt,
            duplicate,
            two.get(0),
            micros(two.get(1)),
            garbage,
            vanishes,
            gone,
            rate,
            latency);
      }
      case "vanish" -> {
        List<Double> two = two(value);
        yield new LineWeather(
            drop,
            corrupt,
            duplicate,
            delay,
            delayMicros,
            garbage,
            micros(two.get(0)),
            micros(two.get(1)),
            rate,
            latency);
      }
      case "rate" ->
          new LineWeather(
              drop,
              corrupt,
              duplicate,
              delay,
              delayMicros,
              garbage,
              vanishes,
              gone,
              rate(value),
              latency);
      case "latency" -> {
        if (!value.equals("usb")) {
          throw new IllegalArgumentException("the latency is \"usb\" or not given. " + ALLOWED);
        }
        yield new LineWeather(
            drop, corrupt, duplicate, delay, delayMicros, garbage, vanishes, gone, rate, true);
      }
      default -> throw new IllegalArgumentException("\"" + word + "\" is no fault. " + ALLOWED);
    };
  }

  private LineWeather changed(double dropped, double corrupted, double doubled, double noisy) {
    return new LineWeather(
        dropped, corrupted, doubled, delay, delayMicros, noisy, vanishes, gone, rate, latency);
  }

  private static int rate(String value) {
    Integer bytes = RATES.get(value.toLowerCase(Locale.ROOT));
    if (bytes == null) {
      throw new IllegalArgumentException("\"" + value + "\" is no rate. " + ALLOWED);
    }
    return bytes;
  }

  private static List<Double> two(String value) {
    String[] parts = value.split(":", -1);
    if (parts.length != 2) {
      throw new IllegalArgumentException(
          "\"" + value + "\" is not two numbers with a colon between. " + ALLOWED);
    }
    return List.of(number(parts[0]), number(parts[1]));
  }

  private static double number(String value) {
    try {
      double number = Double.parseDouble(value);
      if (!(number >= 0 && number <= 1e9)) {
        throw new IllegalArgumentException("\"" + value + "\" is out of range. " + ALLOWED);
      }
      return number;
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException("\"" + value + "\" is no number. " + ALLOWED, e);
    }
  }

  private static long micros(double millis) {
    return Math.round(millis * 1000);
  }
}
