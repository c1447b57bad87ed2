package org.jointwalk.stack;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.quantity.Ohms;

/**
 * A model in a set-up: which conductors are there, which nodes the contacts touch, and how contacts
 * share nodes. Built once per pass; cost is linear in the number of positions. Immutable.
 */
public final class Assembly {

  private final PadMap map;
  private final Interposer interposer;
  private final SetUp setUp;
  private final Map<Node.Land, Integer> tieOfLand = new LinkedHashMap<>();
  private final List<Link> links = new ArrayList<>();
  private final Map<Contact, Branch> branches = new LinkedHashMap<>();
  private final Map<Node, List<Branch>> groups = new LinkedHashMap<>();
  private final Map<Contact, Node> homes = new LinkedHashMap<>();

  /**
   * @param map the model
   * @param interposer one of the map's variants
   * @param setUp what is clamped
   */
  public Assembly(PadMap map, Interposer interposer, SetUp setUp) {
    this.map = map;
    this.interposer = interposer;
    this.setUp = setUp;
    if (setUp.interposer()) {
      indexTies();
    }
    layLinks();
    layBranches();
    groups.forEach((hub, list) -> list.forEach(b -> homes.put(b.contact(), home(hub))));
  }

  private void indexTies() {
    for (int i = 0; i < interposer.ties().size(); i++) {
      Tie tie = interposer.ties().get(i);
      for (Face face : List.of(Face.TOP_LAND, Face.BOTTOM_LAND)) {
        if (tie.reaches(face)) {
          for (String position : tie.positions()) {
            tieOfLand.put(new Node.Land(position, face), i);
          }
        }
      }
    }
  }

  private void layLinks() {
    for (Position p : map.positions().values()) {
      for (Component component : present(p.id())) {
        links.add(link(component));
      }
    }
    tieOfLand.forEach(
        (land, tie) ->
            links.add(
                new Link(
                    Optional.empty(),
                    land,
                    new Node.TieMetal(tie),
                    interposer.ties().get(tie).ohms())));
    for (AccessPoint point : reachablePoints()) {
      links.add(
          new Link(
              Optional.empty(),
              new Node.AtPoint(point.id()),
              Node.OnBoard.of(point.net()),
              map.net(point.net()).trace()));
    }
  }

  private Link link(Component component) {
    // A good solder joint is far below what any limit asks; see the simulator for its spread.
    Ohms solder = new Ohms(0.0005);
    if (component instanceof Component.Joint joint) {
      return new Link(
          Optional.of(component),
          new Node.Land(joint.position(), Face.padOf(joint.side())),
          new Node.Land(joint.position(), Face.landOf(joint.side())),
          solder);
    }
    if (component instanceof Component.Via via) {
      return new Link(
          Optional.of(component),
          new Node.Land(via.position(), Face.TOP_LAND),
          new Node.Land(via.position(), Face.BOTTOM_LAND),
          interposer.via());
    }
    if (component instanceof Component.Pad pad) {
      Net net = map.netAt(pad.position(), pad.side());
      return new Link(
          Optional.of(component),
          new Node.Land(pad.position(), Face.padOf(pad.side())),
          Node.OnBoard.of(net.id()),
          net.trace());
    }
    throw new IllegalArgumentException(component + " is not a conductor of a position");
  }

  private void layBranches() {
    for (Plate plate : Plate.values()) {
      setUp
          .touches(plate)
          .ifPresent(
              face ->
                  map.positions()
                      .keySet()
                      .forEach(id -> addBranch(walk(new Contact.Pad(plate, id), face))));
    }
    for (AccessPoint point : reachablePoints()) {
      addBranch(
          new Branch(
              new Contact.Point(point.id()),
              new Node.AtPoint(point.id()),
              List.of(),
              Node.OnBoard.of(point.net())));
    }
  }

  private void addBranch(Branch branch) {
    branches.put(branch.contact(), branch);
    groups.computeIfAbsent(branch.hub(), k -> new ArrayList<>()).add(branch);
  }

  /** Follows a position's chain from the touched face to the first shared node. */
  private Branch walk(Contact.Pad contact, Face face) {
    String id = contact.position();
    Node.Land touched = new Node.Land(id, face);
    List<Component> chain = new ArrayList<>();
    // Faces lie in order from the upper board down; a tip on the lower half walks upwards.
    boolean down = face == Face.TOP_LAND || face == Face.LOWER_PAD;
    if (!face.ofInterposer()) {
      Side side = face.side();
      chain.add(new Component.Pad(side, id));
      return new Branch(contact, touched, chain, Node.OnBoard.of(map.position(id).net(side)));
    }
    Node.Land near = touched;
    Node.Land far = new Node.Land(id, down ? Face.BOTTOM_LAND : Face.TOP_LAND);
    if (tieOfLand.containsKey(near)) {
      return new Branch(contact, touched, chain, tieMetal(near));
    }
    Side side = down ? Side.LOWER : Side.UPPER;
    if (setUp.bare()) {
      // Both plates meet in the via's lower land, so that its two contacts form one pair.
      Node.Land meeting = new Node.Land(id, Face.BOTTOM_LAND);
      if (tieOfLand.containsKey(far)) {
        chain.add(new Component.Via(id));
        return new Branch(contact, touched, chain, tieMetal(far));
      }
      if (!touched.equals(meeting)) {
        chain.add(new Component.Via(id));
      }
      return new Branch(contact, touched, chain, meeting);
    }
    chain.add(new Component.Via(id));
    if (tieOfLand.containsKey(far)) {
      return new Branch(contact, touched, chain, tieMetal(far));
    }
    chain.add(new Component.Joint(side, id));
    chain.add(new Component.Pad(side, id));
    return new Branch(contact, touched, chain, Node.OnBoard.of(map.position(id).net(side)));
  }

  private Node.TieMetal tieMetal(Node.Land land) {
    Integer tie = tieOfLand.get(land);
    if (tie == null) {
      throw new IllegalArgumentException(land + " is not tied");
    }
    return new Node.TieMetal(tie);
  }

  /** The model. */
  public PadMap map() {
    return map;
  }

  /** The variant of the interposer. */
  public Interposer interposer() {
    return interposer;
  }

  /** What is clamped. */
  public SetUp setUp() {
    return setUp;
  }

  /** The components of a position that are in the fixture, from the upper board down. */
  public List<Component> present(String position) {
    List<Component> chain = new ArrayList<>();
    if (setUp.boards().contains(Side.UPPER)) {
      chain.add(new Component.Pad(Side.UPPER, position));
    }
    if (setUp.joints().contains(Side.UPPER)) {
      chain.add(new Component.Joint(Side.UPPER, position));
    }
    if (setUp.interposer()) {
      chain.add(new Component.Via(position));
    }
    if (setUp.joints().contains(Side.LOWER)) {
      chain.add(new Component.Joint(Side.LOWER, position));
    }
    if (setUp.boards().contains(Side.LOWER)) {
      chain.add(new Component.Pad(Side.LOWER, position));
    }
    return chain;
  }

  /** The components of a position that lie in a branch of one of its own contacts. */
  public Set<Component> inBranches(String position) {
    Set<Component> seen = new LinkedHashSet<>();
    for (Plate plate : Plate.values()) {
      Branch branch = branches.get(new Contact.Pad(plate, position));
      if (branch != null) {
        seen.addAll(branch.chain());
      }
    }
    return seen;
  }

  /** Every conductor that is in the fixture, ties and the copper to access points included. */
  public List<Link> links() {
    return Collections.unmodifiableList(links);
  }

  /** The loads of the boards that are in the fixture. */
  public List<Load> loads() {
    return map.loads().stream().filter(load -> setUp.boards().contains(load.side())).toList();
  }

  /** The access points of the boards that are in the fixture, when the set-up reaches any. */
  public List<AccessPoint> reachablePoints() {
    return map.points().values().stream()
        .filter(point -> setUp.points() && setUp.boards().contains(point.net().side()))
        .toList();
  }

  /** Everything that a probe can touch, in map order: upper plate, lower plate, access points. */
  public Set<Contact> contacts() {
    return Collections.unmodifiableSet(branches.keySet());
  }

  /** What lies behind a contact of this set-up. */
  public Branch branch(Contact contact) {
    Branch branch = branches.get(contact);
    if (branch == null) {
      throw new IllegalArgumentException(contact + " touches nothing in " + setUp.name());
    }
    return branch;
  }

  /** The branches that meet in each shared node, in map order. */
  public Map<Node, List<Branch>> groups() {
    return Collections.unmodifiableMap(groups);
  }

  /**
   * Where a contact ends when everything behind it is sound: the net of a board, the metal of a tie
   * that leads to no single net, or the far land of a via. Two contacts with one home are joined by
   * design.
   */
  public Node home(Contact contact) {
    Node home = homes.get(contact);
    return home == null ? branch(contact).hub() : home;
  }

  private Node home(Node hub) {
    return hub instanceof Node.TieMetal metal
        ? beyond(metal).map(Node.class::cast).orElse(hub)
        : hub;
  }

  /** The net of a board that a contact leads to when everything behind it is sound. */
  public Optional<Net> net(Contact contact) {
    return home(contact) instanceof Node.OnBoard board
        ? Optional.of(map.net(new NetId(board.side(), board.name())))
        : Optional.empty();
  }

  /** The limit of one joint of this set-up; the stricter board counts where a via has two. */
  public Ohms limit(String position) {
    Ohms upper = map.limit(position, Side.UPPER);
    Ohms lower = map.limit(position, Side.LOWER);
    if (setUp.boards().size() == 1) {
      return setUp.boards().contains(Side.UPPER) ? upper : lower;
    }
    return upper.value() <= lower.value() ? upper : lower;
  }

  /** Whether a contact leads to a ground net. */
  public boolean isGround(Contact contact) {
    return net(contact).map(n -> n.role() == Role.GROUND).orElse(false);
  }

  /**
   * The board net that all positions of a tie lead to through their joints, empty when there is
   * none or more than one.
   */
  public Optional<Node.OnBoard> beyond(Node.TieMetal metal) {
    if (setUp.joints().size() != 1) {
      return Optional.empty();
    }
    Side side = setUp.joints().iterator().next();
    List<NetId> nets =
        interposer.ties().get(metal.tie()).positions().stream()
            .map(id -> map.position(id).net(side))
            .distinct()
            .toList();
    return nets.size() == 1 ? Optional.of(Node.OnBoard.of(nets.get(0))) : Optional.empty();
  }
}
