package org.jointwalk.oracle;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jointwalk.simulator.Deck;
import org.jointwalk.stack.Contact;

/**
 * Operating points of a circuit by ngspice, one after the other in one run.
 *
 * <p>Traps met with version 39: without {@code quit} the exit status is 1; a resistance of 0 is
 * silently one milliohm; a part that hangs on nothing makes the matrix singular. So the part of one
 * contact is pinned to node 0 and each other part tied to it by a gigohm. Nothing flows through a
 * tie while current only circles inside its part. Junctions converge only if no part hangs on
 * junctions alone, and not always from the state of another net's step.
 */
final class Ngspice {

  private static final double TIE_OHMS = 1e9;

  private static final Pattern ANSWER = Pattern.compile("^(\\S+) = (\\S+)$", Pattern.MULTILINE);

  private final Path folder;
  private final Deck deck;
  private final Contact pinned;
  private final Map<String, String> towards;
  private final List<String> sources = new ArrayList<>();
  private final List<String> commands = new ArrayList<>();

  Ngspice(Path folder, Deck deck, Contact pinned) {
    this.folder = folder;
    this.deck = deck;
    this.pinned = pinned;
    towards = parts(deck);
  }

  /** Asks for the voltage from one contact to another with this current from the second to it. */
  void drive(Contact a, Contact b, double amps) {
    String high = deck.nodes().get(a);
    String low = deck.nodes().get(b);
    String source = "isource" + sources.size();
    sources.add(source + " " + low + " " + high + " DC 0");
    commands.add("alter " + source + " = " + amps);
    commands.add("op");
    commands.add("print v(" + high + ")-v(" + low + ")");
    commands.add("alter " + source + " = 0");
  }

  /** Runs all that was asked; the answers in volt, in the order asked. */
  List<Double> volts() throws IOException, InterruptedException {
    Path file = folder.resolve("deck.cir");
    Files.writeString(file, text(), StandardCharsets.UTF_8);
    Process process =
        new ProcessBuilder("ngspice", "-b", file.toString()).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    int exit = process.waitFor();
    List<Double> volts = new ArrayList<>();
    Matcher answers = ANSWER.matcher(said);
    while (answers.find()) {
      volts.add(Double.parseDouble(answers.group(2)));
    }
    if (exit != 0 || volts.size() != sources.size()) {
      throw new IOException("ngspice ended with " + exit + " and said: " + said);
    }
    return volts;
  }

  private String part(Contact contact) {
    return end(towards, deck.nodes().getOrDefault(contact, ""));
  }

  /** Finds the parts that resistors hold together: each node leads towards its part's one end. */
  private static Map<String, String> parts(Deck deck) {
    Map<String, String> towards = new TreeMap<>();
    for (String element : deck.elements().lines().toList()) {
      List<String> words = List.of(element.split(" ", -1));
      if (!element.startsWith(".")) {
        String a = end(towards, words.get(1));
        String b = end(towards, words.get(2));
        if (element.startsWith("R") && !a.equals(b)) {
          towards.put(a, b);
        }
      }
    }
    return towards;
  }

  /** One resistor from the end of each part to node 0. */
  private String ties() {
    String reference = part(pinned);
    StringBuilder ties = new StringBuilder();
    towards.forEach(
        (node, next) -> {
          if (node.equals(next)) {
            double ohms = node.equals(reference) ? 1 : TIE_OHMS;
            ties.append("Rtie" + node + " " + node + " 0 " + ohms + "\n");
          }
        });
    return ties.toString();
  }

  private static String end(Map<String, String> towards, String node) {
    String at = node;
    towards.putIfAbsent(at, at);
    String next = towards.getOrDefault(at, at);
    while (!next.equals(at)) {
      at = next;
      next = towards.getOrDefault(at, at);
    }
    return at;
  }

  private String text() {
    return String.join(
        "\n",
        "* a circuit of the simulator",
        deck.elements(),
        ties(),
        String.join("\n", sources),
        ".options temp=27 tnom=27 gmin=1e-12 itl1=500 reltol=1e-9 abstol=1e-15 vntol=1e-10",
        ".control",
        "set numdgt=15",
        String.join("\n", commands),
        "quit 0",
        ".endc",
        ".end",
        "");
  }
}
