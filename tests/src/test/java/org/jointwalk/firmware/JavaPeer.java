package org.jointwalk.firmware;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Bytes;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Item;
import org.jointwalk.protocol.Lines;
import org.jointwalk.protocol.Message;
import org.jointwalk.protocol.Parser;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.ProgramReader;
import org.jointwalk.protocol.Received;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Streamed;

/** What this program makes of bytes, in the manner of the firmware's peer. Not thread-safe. */
final class JavaPeer {

  private static final int CHANNELS = 1_024;
  private static final int STEPS = 256;
  private static final int SETTINGS = 16;
  private static final int SETS = 8;
  private static final int POINTS = 24;
  private static final int ITEMS = 16;
  private static final long LAST_STEP = 1_000_000;

  private static final Answer.Welcome LIMITS =
      new Answer.Welcome(
          1, 1, 1, 1, 1, 0, 0, 0, 1020, CHANNELS, STEPS, SETTINGS, SETS, POINTS, 1, 0, 0, 0);

  private final Parser parser = new Parser(Parser.End.FIXTURE);
  private ProgramReader program = reader();
  private Optional<Declaration> declaration = Optional.empty();

  private static ProgramReader reader() {
    return new ProgramReader(LIMITS, new Request.Run(1, 0, LAST_STEP, 0, 0));
  }

  int settings() {
    return SETTINGS;
  }

  int sets() {
    return SETS;
  }

  long loaded() {
    return program.loaded();
  }

  /**
   * What bytes completed.
   *
   * @param name of the kind of verdict
   * @param wire as this program writes the frame; empty where it keeps none
   * @param said what is expected of the firmware
   * @param source what it was
   */
  record Verdict(String name, Optional<String> wire, String said, String source) {

    /** In words, where the firmware says something else. */
    Optional<String> difference(String line) {
      List<String> words = List.of(line.split(" ", -1));
      String theirs =
          words.get(0).equals("F")
              ? verdict(String.join(" ", words.subList(2, words.size())))
              : words.get(0);
      boolean same = theirs.equals(said) || isOtherOfTwo(theirs);
      boolean bytes = wire.isEmpty() || wire.get().equals(words.get(1));
      return same && bytes
          ? Optional.empty()
          : Optional.of("C: " + theirs + ", Java: " + said + " on " + source + " (" + line + ")");
    }

    /**
     * Of length and values any may be named when both are wrong (7.1). Only DECLARE has a length
     * that hangs on its values.
     */
    private boolean isOtherOfTwo(String theirs) {
      return said.matches("refused 3 (2 [0-9]+|3 0)") && theirs.matches("refused 3 (2 [0-9]+|3 0)");
    }

    private static String verdict(String words) {
      if (!words.startsWith("A ")) {
        return words;
      }
      String[] part = words.split(" ", -1);
      if (part.length < 5) {
        return words;
      }
      Bytes wire =
          Lines.wire(
              Lines.raw(
                  Integer.parseInt(part[1]),
                  Integer.parseInt(part[2]),
                  Integer.parseInt(part[3]),
                  Bytes.ofHex(part[4])));
      return Lines.feed(new Parser(Parser.End.HOST), wire).get(0) instanceof Received.Whole whole
          ? shown(whole.frame().message())
          : "an answer that cannot be read: " + words;
    }
  }

  private static String shown(Message answer) {
    if (answer instanceof Answer.Refused refused) {
      return String.format(
          Locale.ROOT, "refused %d %d %d", refused.request(), refused.code(), refused.detail());
    }
    if (answer instanceof Answer.Welcome welcome) {
      return "welcome " + welcome.nonce();
    }
    if (answer instanceof Answer.Page page) {
      return "page " + page.first() + " of " + page.total();
    }
    if (answer instanceof Answer.Declared declared) {
      return "declared " + declared.declaration();
    }
    return answer instanceof Answer.State ? "state" : answer.toString();
  }

  List<Verdict> take(byte[] bytes) {
    List<Verdict> verdicts = new ArrayList<>();
    for (Received received : parser.feed(bytes, 0, bytes.length)) {
      verdicts.add(take(received));
    }
    return verdicts;
  }

  private Verdict take(Received received) {
    if (received instanceof Received.Dropped dropped) {
      return switch (dropped.cause()) {
        case OVERSIZE -> new Verdict("oversize", Optional.empty(), "O", received.toString());
        case DIRECTION -> new Verdict("direction", Optional.empty(), "-", received.toString());
        default -> new Verdict("dropped", Optional.empty(), "D", received.toString());
      };
    }
    if (received instanceof Received.Unreadable bad) {
      if (bad.type() == 0x01) {
        begin();
      }
      return verdict(unreadable(bad), Optional.empty(), received);
    }
    Frame frame = ((Received.Whole) received).frame();
    byte[] wire = frame.encode();
    String hex = Bytes.of(Arrays.copyOf(wire, wire.length - 1)).toString();
    String said =
        frame.message() instanceof Streamed streamed
            ? streamed(program.take(streamed, 0))
            : shown(answer((Request) frame.message()));
    return verdict(said, Optional.of(hex), received);
  }

  private static Verdict verdict(String said, Optional<String> wire, Received received) {
    String[] words = said.split(" ", -1);
    String name =
        switch (words[0]) {
          case "S" -> "stream " + words[1];
          case "refused" -> "refused " + words[2];
          default -> words[0].toUpperCase(Locale.ROOT);
        };
    return new Verdict(name, wire, said, received.toString());
  }

  private static String streamed(Optional<ProgramFault> fault) {
    return "S " + fault.map(ProgramFault::code).orElse(0);
  }

  private static String unreadable(Received.Unreadable bad) {
    if (bad.type() >= 0x40) {
      ProgramFault fault =
          bad.refusal() == Refusal.UNKNOWN_TYPE ? ProgramFault.UNKNOWN : ProgramFault.UNREADABLE;
      return streamed(bad.mayBeIgnored() ? Optional.empty() : Optional.of(fault));
    }
    return shown(new Answer.Refused(bad.type(), bad.refusal().code(), bad.detail()));
  }

  private void begin() {
    program = reader();
    declaration = Optional.empty();
  }

  private Answer answer(Request request) {
    if (request instanceof Request.Hello hello) {
      begin();
      return hello.lowest() > 1
          ? refused(request, Refusal.VERSION, 0x0101)
          : new Answer.Welcome(
              1,
              hello.nonce(),
              1,
              1,
              1,
              0,
              0,
              0,
              1020,
              CHANNELS,
              STEPS,
              SETTINGS,
              SETS,
              POINTS,
              1,
              0,
              0,
              0);
    }
    if (request instanceof Request.Capabilities wanted) {
      return wanted.first() < ITEMS
          ? new Answer.Page(wanted.first(), ITEMS, List.of(item()))
          : refused(request, Refusal.BAD_VALUE, 0);
    }
    if (request instanceof Request.Declare declare) {
      declaration = Optional.of(Declaration.begun(declare, CHANNELS));
      return new Answer.Declared(declaration.get().check());
    }
    if (request instanceof Request.Channels more) {
      return place(more);
    }
    if (request instanceof Request.Run) {
      return declaration
          .map(d -> refused(request, Refusal.OTHER_DECLARATION, d.check()))
          .orElseGet(() -> refused(request, Refusal.NOT_DECLARED, 0));
    }
    return new Answer.State(0, 0, 0, 0, 0, 0, 0, 0, 0, Account.NONE);
  }

  private static Item item() {
    return new Item(1, Bytes.of(new byte[] {1}));
  }

  private Answer place(Request.Channels more) {
    if (declaration.isEmpty()) {
      return refused(more, Refusal.NOT_DECLARED, 0);
    }
    Optional<Declaration> changed =
        more.first() + more.places().size() > CHANNELS
            ? Optional.empty()
            : declaration.get().with(more);
    declaration = changed.isPresent() ? changed : declaration;
    return changed
        .<Answer>map(d -> new Answer.Declared(d.check()))
        .orElseGet(() -> refused(more, Refusal.BAD_VALUE, 0));
  }

  private static Answer refused(Request request, Refusal refusal, long detail) {
    return new Answer.Refused(request.type(), refusal.code(), detail);
  }
}
