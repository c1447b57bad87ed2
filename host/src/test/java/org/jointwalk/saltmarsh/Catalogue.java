package org.jointwalk.saltmarsh;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The nets of an invented terminal for bird-ringing crews. When a ring needs more nets than are
 * listed, the list is gone through again with a number behind each name.
 */
final class Catalogue {

  private record Rail(String name, String function, double volts, double ohms, int pads) {}

  private record Pair(String name, String function) {}

  private record Bus(String function, List<String> lines) {

    private static Bus of(String function, String stem, String... ends) {
      return new Bus(function, List.of(ends).stream().map(end -> stem + end).toList());
    }

    private static Bus counted(String function, String stem, int lines) {
      List<String> names = new ArrayList<>();
      for (int i = 0; i < lines; i++) {
        names.add(stem + i);
      }
      return new Bus(function, names);
    }
  }

  /** Functions in the order in which they follow round the ring, with their share of signals. */
  static final Map<String, Double> SHARES = shares();

  private static final List<Rail> RAILS =
      List.of(
          new Rail("RAIL_QUILL", "charge", 4.4, 30_000, 7),
          new Rail("RAIL_COVERT", "radio", 0.8, 2.2, 4),
          new Rail("RAIL_DOWN", "audio", 1.8, 470, 2),
          new Rail("RAIL_PLUME", "radio", 3.3, 1_200, 6),
          new Rail("RAIL_ALULA", "positioning", 1.2, 85, 3),
          new Rail("RAIL_PERCH", "touch", 3.0, 12_000, 5),
          new Rail("RAIL_CREST", "touch", 1.8, 350, 2),
          new Rail("RAIL_DAWN", "start-up", 1.8, 8_200, 4),
          new Rail("RAIL_REMEX", "unknown", 1.0, 6, 8),
          new Rail("RAIL_SYRINX", "audio", 3.6, 47_000, 3),
          new Rail("RAIL_BARB", "radio", 1.2, 22, 2),
          new Rail("RAIL_MANTLE", "charge", 4.2, 100_000, 5),
          new Rail("RAIL_TARSUS", "positioning", 1.8, 900, 3),
          new Rail("RAIL_ROOST", "start-up", 3.3, 2_700, 4),
          new Rail("RAIL_VANE", "radio", 2.8, 5_600, 2),
          new Rail("RAIL_BROOD", "unknown", 0.9, 3.5, 3));

  private static final List<Pair> PAIRS =
      List.of(
          new Pair("TAIL_FEED", "charge"),
          new Pair("WHISTLE_OUT", "audio"),
          new Pair("BEACON_BIAS", "radio"),
          new Pair("PERCH_DRIVE", "touch"),
          new Pair("STARS_BIAS", "positioning"),
          new Pair("CROP_SENSE", "charge"),
          new Pair("WAKE_LINE", "start-up"),
          new Pair("RING_BIAS", "radio"),
          new Pair("SONG_OUT", "audio"),
          new Pair("FLOCK_CAL", "radio"),
          new Pair("GRIT_DRIVE", "charge"),
          new Pair("PERCH_GUARD", "touch"),
          new Pair("SONG_BIAS", "audio"),
          new Pair("HATCH_HOLD", "start-up"),
          new Pair("HERON_GATE", "radio"),
          new Pair("TIDE_LEVEL", "positioning"),
          new Pair("REED_LINK", "unknown"));

  private static final List<Bus> SINGLES =
      List.of(
          Bus.counted("touch", "PERCH_X", 8),
          Bus.counted("touch", "PERCH_Y", 8),
          Bus.of("touch", "TAP_", "INT", "RST", "CLK", "DAT"),
          Bus.counted("touch", "PRESS", 4),
          Bus.counted("radio", "BEACON_D", 8),
          Bus.of("radio", "RING_", "TX", "RX", "HOLD", "READY"),
          Bus.counted("radio", "ROAM_CTL", 6),
          Bus.of("radio", "FLOCK_", "CLK", "SYNC", "SEL"),
          Bus.counted("radio", "FLOCK_D", 8),
          Bus.counted("radio", "CALL_SW", 6),
          Bus.counted("radio", "HERON_EN", 4),
          Bus.counted("positioning", "STARS_D", 4),
          Bus.of("positioning", "STARS_", "CLK", "SYNC", "BEAT"),
          Bus.of("positioning", "COMPASS_", "CLK", "DAT", "INT"),
          Bus.counted("positioning", "TIDE", 4),
          Bus.of("charge", "FEED_", "EN", "STAT", "INT", "CLK", "DAT"),
          Bus.counted("charge", "CROP_CC", 2),
          Bus.counted("charge", "GRIT", 6),
          Bus.of("charge", "TAIL_", "DET", "TEMP", "ID"),
          Bus.counted("charge", "CROP_DET", 3),
          Bus.of("start-up", "DAWN_", "KEY", "RST", "OK", "HOLD"),
          Bus.counted("start-up", "WAKE", 4),
          Bus.counted("start-up", "HATCH_SEQ", 6),
          Bus.of("audio", "SONG_", "CLK", "FRAME", "MUTE"),
          Bus.counted("audio", "SONG_D", 6),
          Bus.counted("audio", "WHISTLE", 4),
          Bus.of("audio", "TRILL_", "INT", "CLK", "DAT"),
          Bus.counted("audio", "EARSHOT", 4),
          Bus.counted("unknown", "REED", 8),
          Bus.counted("unknown", "SEDGE", 8));

  private static final List<Bus> BLOCKED =
      List.of(
          Bus.counted("radio", "WHIP", 10),
          Bus.counted("positioning", "ZENITH", 4),
          Bus.counted("audio", "LARK", 4));

  private static final Map<String, Double> BLOCKED_SHARES =
      Map.of("radio", 0.5, "positioning", 0.25, "audio", 0.25);

  private Catalogue() {}

  private static Map<String, Double> shares() {
    Map<String, Double> shares = new LinkedHashMap<>();
    shares.put("touch", 0.17);
    shares.put("radio", 0.27);
    shares.put("positioning", 0.09);
    shares.put("charge", 0.13);
    shares.put("start-up", 0.10);
    shares.put("audio", 0.14);
    shares.put("unknown", 0.10);
    return shares;
  }

  /** Rails for so many pads, each with two or more; the first of more than four is parted. */
  static List<Draft> rails(int pads) {
    List<Draft> rails = new ArrayList<>();
    int left = pads;
    for (int i = 0; left >= 2; i++) {
      Rail rail = RAILS.get(i % RAILS.size());
      int size = Math.min(rail.pads(), left);
      if (left - size == 1) {
        size += size > 2 ? -1 : 1;
      }
      rails.add(
          new Draft(
              again(rail.name(), i / RAILS.size()),
              Draft.Kind.RAIL,
              rail.function(),
              size,
              rail.volts(),
              rail.ohms(),
              i == 0 && size > 4));
      left -= size;
    }
    return rails;
  }

  /** So many nets of two pads; the first is parted when there are others. */
  static List<Draft> pairs(int nets) {
    List<Draft> pairs = new ArrayList<>();
    for (int i = 0; i < nets; i++) {
      Pair pair = PAIRS.get(i % PAIRS.size());
      pairs.add(
          new Draft(
              again(pair.name(), i / PAIRS.size()),
              Draft.Kind.PAIR,
              pair.function(),
              2,
              0,
              0,
              i == 0 && nets > 1));
    }
    return pairs;
  }

  /** So many single signals, bus by bus. */
  static List<List<Draft>> singles(int nets) {
    return buses(SINGLES, SHARES, nets, Draft.Kind.SINGLE);
  }

  /** So many signals behind a capacitor, bus by bus. */
  static List<List<Draft>> blocked(int nets) {
    return buses(BLOCKED, BLOCKED_SHARES, nets, Draft.Kind.BLOCKED);
  }

  private static List<List<Draft>> buses(
      List<Bus> all, Map<String, Double> shares, int nets, Draft.Kind kind) {
    List<List<Draft>> buses = new ArrayList<>();
    double share = 0;
    int given = 0;
    for (String function : SHARES.keySet()) {
      share += shares.getOrDefault(function, 0.0);
      int wanted = (int) Math.round(nets * share) - given;
      given += wanted;
      List<Bus> own = all.stream().filter(bus -> bus.function().equals(function)).toList();
      for (int i = 0; wanted > 0; i++) {
        int round = i / own.size();
        List<Draft> drafts =
            own.get(i % own.size()).lines().stream()
                .limit(wanted)
                .map(line -> Draft.of(again(line, round), kind, function))
                .toList();
        buses.add(drafts);
        wanted -= drafts.size();
      }
    }
    return buses;
  }

  private static String again(String name, int round) {
    return round == 0 ? name : name + "_" + (round + 1);
  }
}
