package org.jointwalk.drawing;

import java.io.StringWriter;
import java.math.BigDecimal;
import java.math.RoundingMode;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/** Writes one SVG element; every text and attribute is escaped. Not thread-safe. */
final class Svg {

  private static final int DECIMALS = 2;

  private final StringWriter text = new StringWriter();
  private final XMLStreamWriter writer;

  Svg() {
    try {
      writer = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(text);
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  /** A length or place as a picture needs it: two decimals at most. */
  static String number(double value) {
    BigDecimal rounded =
        BigDecimal.valueOf(value).setScale(DECIMALS, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return rounded.signum() == 0 ? "0" : rounded.toPlainString();
  }

  /**
   * Opens an element.
   *
   * @param attributes names and values in turn; a {@code Double} is written by {@link #number}
   */
  Svg open(String name, Object... attributes) {
    try {
      writer.writeStartElement(name);
      for (int i = 0; i < attributes.length; i += 2) {
        Object value = attributes[i + 1];
        writer.writeAttribute(
            (String) attributes[i],
            value instanceof Double number ? number(number) : String.valueOf(value));
      }
      return this;
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  /** Opens the picture itself, with what it shows for whoever cannot see it. */
  Svg picture(double wide, double high, String title) {
    open(
        "svg",
        "xmlns",
        "http://www.w3.org/2000/svg",
        "viewBox",
        "0 0 " + number(wide) + " " + number(high),
        "width",
        wide,
        "height",
        high,
        "role",
        "img",
        "font-family",
        "sans-serif");
    return words("title", title);
  }

  /** Closes the element opened last. */
  Svg close() {
    try {
      writer.writeEndElement();
      return this;
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
  }

  /** An element without content. */
  Svg leaf(String name, Object... attributes) {
    return open(name, attributes).close();
  }

  /** An element that holds a text only. */
  Svg words(String name, String content, Object... attributes) {
    open(name, attributes);
    try {
      writer.writeCharacters(content);
    } catch (XMLStreamException e) {
      throw impossible(e);
    }
    return close();
  }

  /** What was written, as one line of XML without a declaration. */
  String xml() {
    return text.toString();
  }

  private static IllegalStateException impossible(XMLStreamException e) {
    return new IllegalStateException("a string refused to be written to", e);
  }
}
