package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.quantity.Budget;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Influence;
import org.jointwalk.stack.Contact;

/**
 * The readings between contacts of one net in one seating. Each is the sum of two paths, y = r_i +
 * r_j, so a set of them resolves its paths singly when and only when it holds a ring of odd length:
 * the information matrix is the signless Laplacian of the graph of readings. A triangle gives r_i =
 * (y_ij + y_il - y_jl) / 2, the relation of the three-point method for earth electrodes.
 *
 * <p>Not thread-safe.
 */
final class Group {

  /** No reading is better than this, in ohm; one that claims to be would outweigh all others. */
  private static final double BEST_OHMS = 1e-9;

  /** One false alarm in so many looks. */
  private static final double ODD = 1e-4;

  /** What a plane adds to one reading and not to another, in ohm (an assumption). */
  private static final double PLANE_OHMS = 1e-3;

  private record Edge(Contact a, Contact b, Accuracy.Sensed sensed, Estimate ohms) {

    double weight() {
      return 1 / square(Math.max(ohms.u(), BEST_OHMS));
    }

    /** A reading is not quite the sum of two paths: planes and ties lie between them. */
    double weightOfSum() {
      return 1 / (square(ohms.u()) + square(PLANE_OHMS));
    }

    private static double square(double value) {
      return value * value;
    }
  }

  private final Accuracy accuracy;
  private final Capabilities capabilities;
  private final double drift;
  private final List<Edge> edges = new ArrayList<>();
  private final Map<Contact, Set<Contact>> partners = new LinkedHashMap<>();
  private final Set<Contact> unsteady = new LinkedHashSet<>();

  Group(Accuracy accuracy, Capabilities capabilities) {
    this(accuracy, capabilities, 0);
  }

  /**
   * @param drift of the instrument in this seating, as a standard uncertainty of a reading in ohm
   */
  Group(Accuracy accuracy, Capabilities capabilities, double drift) {
    this.drift = drift;
    this.accuracy = accuracy;
    this.capabilities = capabilities;
  }

  void add(Step step, Reading reading) {
    Contact a = step.a();
    Contact b = step.b();
    partners.computeIfAbsent(a, k -> new LinkedHashSet<>()).add(b);
    partners.computeIfAbsent(b, k -> new LinkedHashSet<>()).add(a);
    if (reading instanceof Reading.Measured measured && carriedCurrent(measured)) {
      Accuracy.Sensed sensed = drifting(accuracy.sensed(step, measured));
      Budget budget = new Budget();
      budget.add(1, sensed.influences());
      if (isUnsteady(step, measured)) {
        unsteady.addAll(List.of(a, b));
      }
      edges.add(new Edge(a, b, sensed, budget.estimate(sensed.ohms())));
    }
  }

  private Accuracy.Sensed drifting(Accuracy.Sensed sensed) {
    if (drift == 0) {
      return sensed;
    }
    List<Influence> influences = new ArrayList<>(sensed.influences());
    influences.add(Influence.known("drift seen at the reference step", new Object(), drift));
    return new Accuracy.Sensed(sensed.ohms(), influences);
  }

  /** Chi-square of the points of one reading, at one false alarm in ten thousand. */
  private boolean isUnsteady(Step step, Reading.Measured reading) {
    int left = reading.points().size() - 1;
    return left > 0
        && accuracy.scatter(step, reading)
            > ChiSquaredDistribution.of(left).inverseSurvivalProbability(ODD);
  }

  /** A fixture that calls a reading without current measured has met no path all the same. */
  private static boolean carriedCurrent(Reading.Measured measured) {
    return measured.points().stream().noneMatch(point -> point.amps() == 0);
  }

  /** The contacts that were seen to conduct. */
  Set<Contact> conducting() {
    Set<Contact> contacts = new LinkedHashSet<>();
    for (Edge edge : edges) {
      contacts.add(edge.a());
      contacts.add(edge.b());
    }
    return contacts;
  }

  List<PathEstimate> solve(int seating) {
    List<PathEstimate> paths = new ArrayList<>();
    Set<Contact> conducting = conducting();
    for (List<Contact> part : parts(conducting)) {
      solvePart(seating, part, paths);
    }
    for (Contact contact : partners.keySet()) {
      if (!conducting.contains(contact)) {
        boolean proven = partners(contact).stream().anyMatch(conducting::contains);
        paths.add(
            path(
                seating,
                contact,
                proven || isLonePair(contact) ? Evidence.NO_PATH : Evidence.NO_PROVEN_PARTNER,
                Optional.empty(),
                Optional.empty(),
                true));
      }
    }
    return paths;
  }

  /** A via between its own two probes has no third contact that could prove either. */
  private boolean isLonePair(Contact contact) {
    return contact instanceof Contact.Pad pad
        && partners(contact).stream()
            .allMatch(
                p -> p instanceof Contact.Pad other && other.position().equals(pad.position()));
  }

  private Set<Contact> partners(Contact contact) {
    return partners.getOrDefault(contact, Set.of());
  }

  private PathEstimate path(
      int seating,
      Contact contact,
      Evidence evidence,
      Optional<Estimate> ohms,
      Optional<Contact> sharedWith,
      boolean consistent) {
    return new PathEstimate(
        seating,
        contact,
        evidence,
        ohms,
        sharedWith,
        false,
        List.copyOf(partners(contact)),
        consistent,
        unsteady.contains(contact));
  }

  private List<List<Contact>> parts(Set<Contact> contacts) {
    Map<Contact, List<Contact>> next = new LinkedHashMap<>();
    for (Edge edge : edges) {
      next.computeIfAbsent(edge.a(), k -> new ArrayList<>()).add(edge.b());
      next.computeIfAbsent(edge.b(), k -> new ArrayList<>()).add(edge.a());
    }
    List<List<Contact>> parts = new ArrayList<>();
    Set<Contact> seen = new LinkedHashSet<>();
    for (Contact start : contacts) {
      if (!seen.add(start)) {
        continue;
      }
      List<Contact> part = new ArrayList<>(List.of(start));
      for (int i = 0; i < part.size(); i++) {
        for (Contact other : next.getOrDefault(part.get(i), List.of())) {
          if (seen.add(other)) {
            part.add(other);
          }
        }
      }
      parts.add(part);
    }
    return parts;
  }

  private void solvePart(int seating, List<Contact> part, List<PathEstimate> paths) {
    Map<Contact, Integer> index = new LinkedHashMap<>();
    part.forEach(c -> index.put(c, index.size()));
    List<Edge> mine = edges.stream().filter(e -> index.containsKey(e.a())).toList();
    if (!hasOddRing(part, mine)) {
      part.forEach(c -> paths.add(bySum(seating, c, mine)));
      return;
    }
    int n = part.size();
    int m = mine.size();
    DMatrixRMaj design = new DMatrixRMaj(m, n);
    DMatrixRMaj weighted = new DMatrixRMaj(n, m);
    for (int k = 0; k < m; k++) {
      Edge edge = mine.get(k);
      for (Contact end : List.of(edge.a(), edge.b())) {
        int i = at(index, end);
        design.set(k, i, 1);
        weighted.set(i, k, edge.weight());
      }
    }
    DMatrixRMaj normal = new DMatrixRMaj(n, n);
    CommonOps_DDRM.mult(weighted, design, normal);
    CommonOps_DDRM.invert(normal);
    DMatrixRMaj gain = new DMatrixRMaj(n, m);
    CommonOps_DDRM.mult(normal, weighted, gain);
    double[] value = new double[n];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < m; k++) {
        value[i] += gain.get(i, k) * mine.get(k).ohms().value();
      }
    }
    boolean consistent = consistent(value, index, mine, m - n);
    for (int i = 0; i < n; i++) {
      paths.add(
          path(
              seating,
              part.get(i),
              Evidence.CONDUCTS,
              Optional.of(estimate(value[i], gain, i, part.get(i), mine)),
              Optional.empty(),
              consistent));
    }
  }

  private static int at(Map<Contact, Integer> index, Contact contact) {
    Integer i = index.get(contact);
    if (i == null) {
      throw new IllegalArgumentException(contact + " is not in this part");
    }
    return i;
  }

  /** Propagates each influence on the readings by itself, then adds the one contact. */
  private Estimate estimate(
      double value, DMatrixRMaj gain, int row, Contact contact, List<Edge> mine) {
    Budget budget = new Budget();
    for (int k = 0; k < mine.size(); k++) {
      budget.add(gain.get(row, k), mine.get(k).sensed().influences());
    }
    return withoutContacts(value, budget, List.of(contact));
  }

  /** A contact belongs to the seating: it acts once, however many readings went through it. */
  private Estimate withoutContacts(double value, Budget budget, List<Contact> contacts) {
    if (!capabilities.kelvin().readsContact()) {
      return budget.estimate(value);
    }
    String source = contacts.size() == 1 ? Accuracy.CONTACT : Accuracy.CONTACTS;
    budget.add(1, contacts.stream().map(c -> accuracy.contact(c, source)).toList());
    return budget.estimate(value - contacts.size() * capabilities.probes().typical().value());
  }

  private PathEstimate bySum(int seating, Contact contact, List<Edge> mine) {
    Edge best =
        mine.stream()
            .filter(e -> e.a().equals(contact) || e.b().equals(contact))
            .min((p, q) -> Double.compare(p.ohms().value(), q.ohms().value()))
            .orElseThrow();
    Contact other = best.a().equals(contact) ? best.b() : best.a();
    Budget budget = new Budget();
    budget.add(1, best.sensed().influences());
    return path(
        seating,
        contact,
        Evidence.CONDUCTS,
        Optional.of(withoutContacts(best.ohms().value(), budget, List.of(contact, other))),
        Optional.of(other),
        true);
  }

  private static boolean hasOddRing(List<Contact> part, List<Edge> mine) {
    Map<Contact, Boolean> colour = new LinkedHashMap<>();
    colour.put(part.get(0), true);
    // The parts are listed breadth first, so each edge meets at least one coloured end in time.
    boolean changed = true;
    while (changed) {
      changed = false;
      for (Edge edge : mine) {
        Boolean a = colour.get(edge.a());
        Boolean b = colour.get(edge.b());
        if (a != null && a.equals(b)) {
          return true;
        }
        if (a != null && b == null) {
          colour.put(edge.b(), !a);
          changed = true;
        } else if (a == null && b != null) {
          colour.put(edge.a(), !b);
          changed = true;
        }
      }
    }
    return false;
  }

  /** Chi-square of the readings left over after fitting, at one false alarm in ten thousand. */
  private static boolean consistent(
      double[] value, Map<Contact, Integer> index, List<Edge> mine, int left) {
    if (left < 1) {
      return true;
    }
    double chi = 0;
    for (Edge edge : mine) {
      double miss = edge.ohms().value() - value[at(index, edge.a())] - value[at(index, edge.b())];
      chi += miss * miss * edge.weightOfSum();
    }
    return chi <= ChiSquaredDistribution.of(left).inverseSurvivalProbability(ODD);
  }
}
