package org.jointwalk.drawing;

import java.util.Optional;
import org.jointwalk.stack.Face;
import org.jointwalk.stack.SetUp;

/** From where a ring is looked at. */
public enum View {
  /** As a map counts: x to the right, y away from the viewer. */
  ABOVE("seen from above"),
  /** As a part lies that was turned over its long edge's left and right: x runs to the left. */
  BELOW("turned over: left and right are swapped");

  private final String words;

  View(String words) {
    this.words = words;
  }

  /** What is written beside the picture. */
  public String words() {
    return words;
  }

  /**
   * How a part lies under the microscope when the face that was probed looks up: faces that look
   * down in the stack are turned over.
   */
  public static View of(SetUp setUp) {
    Optional<Face> face = setUp.over().or(setUp::under);
    return face.filter(f -> f == Face.UPPER_PAD || f == Face.BOTTOM_LAND).isPresent()
        ? BELOW
        : ABOVE;
  }
}
