package org.jointwalk.files;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoublePredicate;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A place in a JSON file where a value of some kind is expected. Reading never throws: what is
 * missing or of the wrong kind is told to the faults, and a stand-in is returned, so that all
 * faults of a file come out at once. What was built from stand-ins must not be used. For one
 * thread.
 */
final class Field {

  /** What stands for a text that could not be read; no name in a file is empty. */
  static final String STAND_IN = "";

  private static final Pattern NEARLY_A_NUMBER =
      Pattern.compile("(-?[0-9]+(?:[.,][0-9]+)?)\\s*([\\p{L}%]{0,8})");

  private final @Nullable Field parent;
  private final String name;
  private final @Nullable Json json;
  private final Faults faults;

  private Field(@Nullable Field parent, String name, @Nullable Json json, Faults faults) {
    this.parent = parent;
    this.name = name;
    this.json = json;
    this.faults = faults;
  }

  /** The outermost value of a file. */
  static Field root(Json json, Faults faults) {
    return new Field(null, "", json, faults);
  }

  /** Where this is; for something missing, where it should have been. */
  Place place() {
    List<String> names = new ArrayList<>();
    @Nullable Json nearest = json;
    for (Field f = this; f.parent != null; f = f.parent) {
      names.add(0, f.name);
      nearest = nearest == null ? f.parent.json : nearest;
    }
    int line = nearest == null ? 0 : nearest.line();
    int column = nearest == null ? 0 : nearest.column();
    return new Place(faults.file(), faults.path(names), line, column);
  }

  /** Where faults of the file are told. */
  Faults faults() {
    return faults;
  }

  /** Whether anything stands here. */
  boolean given() {
    return json != null;
  }

  /** What stands here, as it would be written; empty when nothing does. */
  String shown() {
    return json == null ? "" : json.shown();
  }

  void error(String reason, String allowed, String hint) {
    faults.error(new Fault(place(), reason, shown(), allowed, hint));
  }

  /** A member of this object; nothing is told when it is missing. */
  Field at(String key) {
    Json value = json instanceof Json.Members members ? members.values().get(key) : null;
    return new Field(this, key, value, faults);
  }

  /** Tells keys that this object should not have. */
  void only(List<String> known) {
    if (!(json instanceof Json.Members members)) {
      wrongKind("an object with " + String.join(", ", known));
      return;
    }
    for (String key : members.values().keySet()) {
      if (!known.contains(key)) {
        at(key).unknown("this key is not known here", key, known);
      }
    }
  }

  /** Tells a word that is none of the known ones, with the nearest as hint. */
  void unknown(String reason, String word, Collection<String> known) {
    faults.unknown(place(), reason, word, known);
  }

  /** The items of this array. */
  List<Field> items() {
    List<Field> items = new ArrayList<>();
    if (json instanceof Json.Items list) {
      for (Json value : list.values()) {
        items.add(new Field(this, Integer.toString(items.size()), value, faults));
      }
    } else {
      wrongKind("a list");
    }
    return items;
  }

  /** The members of this object. */
  Map<String, Field> members() {
    Map<String, Field> all = new LinkedHashMap<>();
    if (json instanceof Json.Members members) {
      members.values().forEach((key, value) -> all.put(key, new Field(this, key, value, faults)));
    } else {
      wrongKind("an object");
    }
    return all;
  }

  /** Reads every item of this array. */
  <T> List<T> each(Function<Field, T> read) {
    return items().stream().map(read).toList();
  }

  /** Reads every item of this array; none when nothing stands here. */
  <T> List<T> eachIfGiven(Function<Field, T> read) {
    return given() ? each(read) : List.of();
  }

  /** Reads what stands here; empty when nothing does. */
  <T> Optional<T> maybe(Function<Field, T> read) {
    return json == null ? Optional.empty() : Optional.of(read.apply(this));
  }

  /** A string. */
  String text() {
    if (json instanceof Json.Text text) {
      return text.value();
    }
    wrongKind(given() ? "a text in double quotes" : "a text");
    return STAND_IN;
  }

  /** A text of at least one character, as people write names: no control characters. */
  String words() {
    String text = text();
    if (isText() && text.isEmpty()) {
      error("this name is empty", "a name on one line", "Write at least one letter");
    } else if (!text.equals(text.strip()) || text.chars().anyMatch(Character::isISOControl)) {
      error(
          "this name has white space around it or control characters in it",
          "a name on one line",
          "Type the name again");
      return STAND_IN;
    }
    return text;
  }

  /** An id: a name that can stand between spaces. */
  String id() {
    String text = text();
    if (isText() && !Ids.isId(text)) {
      error("this is no id", Ids.ALLOWED, "Write " + Ids.instead(text));
      return STAND_IN;
    }
    return text;
  }

  /** True or false. */
  boolean flag() {
    if (json instanceof Json.Flag flag) {
      return flag.value();
    }
    wrongKind("true or false");
    return false;
  }

  /** One of the constants of a type, in the words of {@link Words}. */
  <E extends Enum<E>> E word(Class<E> type) {
    E standIn = type.getEnumConstants()[0];
    if (!(json instanceof Json.Text text)) {
      wrongKind("one of the words " + String.join(", ", Words.all(type)));
      return standIn;
    }
    Optional<E> found = Words.read(type, text.value());
    if (found.isEmpty()) {
      unknown("this word is not known here", text.value(), Words.all(type));
    }
    return found.orElse(standIn);
  }

  /** Whether an object stands here. */
  boolean isObject() {
    return json instanceof Json.Members;
  }

  /** Whether an array stands here. */
  boolean isList() {
    return json instanceof Json.Items;
  }

  /** Whether a number stands here. */
  boolean isNumber() {
    return json instanceof Json.Figure;
  }

  /** Whether a number stands here that a double can hold. */
  boolean isFinite() {
    return json instanceof Json.Figure figure && Double.isFinite(figure.value());
  }

  /** Whether a string stands here. */
  boolean isText() {
    return json instanceof Json.Text;
  }

  /** Any double; the words that JSON has no number for stand in quotes. */
  double anyNumber() {
    if (json instanceof Json.Text text && JsonOut.NOT_NUMBERS.contains(text.value())) {
      return Double.parseDouble(text.value());
    }
    return number("a number", value -> true, 0);
  }

  /** A finite number. */
  double finite() {
    return number("a number", Double::isFinite, 0);
  }

  /** A finite number above zero. */
  double positive() {
    return number("a number above 0", value -> value > 0 && Double.isFinite(value), 1);
  }

  /** A finite number from zero up. */
  double notNegative() {
    return number("a number from 0 up", value -> value >= 0 && Double.isFinite(value), 0);
  }

  /** A number from zero to one. */
  double share() {
    return number("a number from 0 to 1", value -> value >= 0 && value <= 1, 0);
  }

  private double number(String allowed, DoublePredicate fits, double standIn) {
    if (!(json instanceof Json.Figure number)) {
      Matcher meant = NEARLY_A_NUMBER.matcher(json instanceof Json.Text text ? text.value() : "");
      if (meant.matches()) {
        boolean unit = !meant.group(2).isEmpty();
        error(
            "this is a text, not a number",
            allowed,
            unit
                ? "Write the number alone, in the unit that the name ends with"
                : "Write "
                    + meant.group(1).replace(',', '.')
                    + " without quotes, with a decimal point");
      } else {
        wrongKind(allowed);
      }
      return standIn;
    }
    double value = number.value();
    if (fits.test(value)) {
      return value;
    }
    error("this number does not fit here", allowed, repair(value));
    return standIn;
  }

  private static String repair(double value) {
    if (value < 0) {
      return "Remove the minus sign";
    }
    return Double.isFinite(value)
        ? "Write the value in the unit that the key names"
        : "Write the number in digits";
  }

  /** A whole number from {@code least} up to what 63 bits hold. */
  long whole(long least) {
    String allowed =
        least > Integer.MIN_VALUE ? "a whole number from " + least + " up" : "a whole number";
    if (!(json instanceof Json.Figure number)) {
      wrongKind(allowed);
      return least;
    }
    try {
      long value = new BigDecimal(number.literal()).longValueExact();
      if (value >= least) {
        return value;
      }
    } catch (ArithmeticException | NumberFormatException notWhole) {
      // Told below, together with numbers that are too small.
    }
    boolean negative = number.value() < 0 && least >= 0;
    error(
        "this number does not fit here",
        allowed,
        negative ? repair(number.value()) : "Write " + allowed + ", in digits only");
    return least;
  }

  /** A whole number from {@code least} up to what 31 bits hold. */
  int count(int least) {
    long value = whole(least);
    if (value > Integer.MAX_VALUE) {
      error("this number is too large", "at most " + Integer.MAX_VALUE, "Write a smaller one");
      return least;
    }
    return (int) value;
  }

  private void wrongKind(String allowed) {
    if (json == null) {
      error("\"" + name + "\" is missing", allowed, "Add \"" + name + "\" with " + allowed);
    } else {
      error("this is of the wrong kind", allowed, "Write " + allowed);
    }
  }
}
