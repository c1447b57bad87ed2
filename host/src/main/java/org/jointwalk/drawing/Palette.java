package org.jointwalk.drawing;

/**
 * Colours of a picture. Within one palette the marks differ in lightness as well as in hue; their
 * shapes differ in any case.
 *
 * @param ground behind everything
 * @param ink text and outlines
 * @param quiet what is there for orientation only
 * @param good connected
 * @param high high resistance
 * @param open no path
 * @param bridged joined
 * @param doubt not decided, or a probe that did not land
 * @param patch around failing pads that lie together
 */
public record Palette(
    String ground,
    String ink,
    String quiet,
    String good,
    String high,
    String open,
    String bridged,
    String doubt,
    String patch) {

  /** For paper and light screens. */
  public static final Palette LIGHT =
      new Palette(
          "#ffffff", "#1d2429", "#7c868d", "#5b8fa8", "#e39b1f", "#a3161b", "#5a2a83", "#3d5a1e",
          "#f6d9cf");

  /** For dark screens. */
  public static final Palette DARK =
      new Palette(
          "#14191d", "#e9eef1", "#7d8990", "#4f88a3", "#f0b445", "#ff7a6b", "#c39bf0", "#b5d97f",
          "#4a2a26");
}
