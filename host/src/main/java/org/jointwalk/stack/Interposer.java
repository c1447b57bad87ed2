package org.jointwalk.stack;

import java.util.List;
import org.jointwalk.quantity.Ohms;

/**
 * One variant of a model's interposer.
 *
 * @param variant its name, unique within the map
 * @param thicknessMm thickness in millimetres
 * @param mirrored true when its lands are the mirror image of the model's other variants
 * @param via resistance of one good via from land to land
 * @param ties lands that it joins by itself
 */
public record Interposer(
    String variant, double thicknessMm, boolean mirrored, Ohms via, List<Tie> ties) {

  public Interposer {
    ties = List.copyOf(ties);
    if (!(thicknessMm > 0)) {
      throw new IllegalArgumentException("thickness must be positive, not " + thicknessMm);
    }
  }
}
