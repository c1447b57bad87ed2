package org.jointwalk.stack;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What is in the fixture: which elements of the stack are present and which faces the plates touch.
 * Everything else in the program asks this record; nothing knows set-ups by name.
 *
 * @param name as commands and files write it
 * @param title what a technician calls it
 * @param boards the boards present
 * @param joints the rows of joints present
 * @param interposer whether the interposer is present
 * @param over the face the upper plate touches
 * @param under the face the lower plate touches
 * @param points whether access points of the boards present can be reached
 * @param shorted whether a metal plate joins all probes
 * @param possible the attachments in which it can exist
 */
public record SetUp(
    String name,
    String title,
    Set<Side> boards,
    Set<Side> joints,
    boolean interposer,
    Optional<Face> over,
    Optional<Face> under,
    boolean points,
    boolean shorted,
    Set<Attachment> possible) {

  private static final Set<Attachment> ALWAYS = EnumSet.allOf(Attachment.class);

  private static final List<SetUp> ALL =
      List.of(
          new SetUp(
              "joined",
              "the joined stack",
              EnumSet.allOf(Side.class),
              EnumSet.allOf(Side.class),
              true,
              Optional.empty(),
              Optional.empty(),
              true,
              false,
              EnumSet.of(Attachment.BOTH)),
          boardAlone("upper-board", "the upper board alone", Side.UPPER),
          boardAlone("lower-board", "the lower board alone", Side.LOWER),
          interposerOn("interposer-on-lower", "the interposer on the lower board", Side.LOWER),
          interposerOn("interposer-on-upper", "the interposer on the upper board", Side.UPPER),
          new SetUp(
              "interposer",
              "the bare interposer",
              Set.of(),
              Set.of(),
              true,
              Optional.of(Face.TOP_LAND),
              Optional.of(Face.BOTTOM_LAND),
              false,
              false,
              EnumSet.of(Attachment.NONE)),
          new SetUp(
              "shorting-plate",
              "the shorting plate",
              Set.of(),
              Set.of(),
              false,
              Optional.empty(),
              Optional.empty(),
              false,
              true,
              ALWAYS),
          new SetUp(
              "empty",
              "the empty fixture",
              Set.of(),
              Set.of(),
              false,
              Optional.empty(),
              Optional.empty(),
              false,
              false,
              ALWAYS));

  public SetUp {
    boards = Set.copyOf(boards);
    joints = Set.copyOf(joints);
    possible = Set.copyOf(possible);
  }

  private static SetUp boardAlone(String name, String title, Side side) {
    // The upper board lies face down on the probes of the lower plate; the lower board faces up.
    Optional<Face> face = Optional.of(Face.padOf(side));
    boolean down = side == Side.LOWER;
    return new SetUp(
        name,
        title,
        EnumSet.of(side),
        Set.of(),
        false,
        down ? face : Optional.empty(),
        down ? Optional.empty() : face,
        true,
        false,
        EnumSet.of(Attachment.only(side.other()), Attachment.NONE));
  }

  private static SetUp interposerOn(String name, String title, Side side) {
    Optional<Face> face = Optional.of(Face.landOf(side.other()));
    boolean down = side == Side.LOWER;
    return new SetUp(
        name,
        title,
        EnumSet.of(side),
        EnumSet.of(side),
        true,
        down ? face : Optional.empty(),
        down ? Optional.empty() : face,
        true,
        false,
        EnumSet.of(Attachment.only(side)));
  }

  /** All set-ups, in the order a job meets them. */
  public static List<SetUp> all() {
    return ALL;
  }

  /** The set-up with this name. */
  public static Optional<SetUp> named(String name) {
    return ALL.stream().filter(s -> s.name.equals(name)).findFirst();
  }

  /** Whether a part of the stack is in the fixture. */
  public boolean hasParts() {
    return interposer || !boards.isEmpty();
  }

  /** The face that a plate touches. */
  public Optional<Face> touches(Plate plate) {
    return plate == Plate.OVER ? over : under;
  }

  /** Whether no board is present, so that nothing can be harmed by a test voltage. */
  public boolean bare() {
    return boards.isEmpty();
  }
}
