package org.jointwalk.job;

import java.util.List;

/**
 * What is known when a device comes in. Anything not answered is empty.
 *
 * @param device the model, as the pad map writes it
 * @param serial of the device
 * @param happened in a word or two: dropped, bent, wet, not said
 * @param fails functions that fail, as the pad map names them
 * @param note free text
 */
public record Intake(
    String device, String serial, String happened, List<String> fails, String note) {

  public Intake {
    fails = List.copyOf(fails);
  }
}
