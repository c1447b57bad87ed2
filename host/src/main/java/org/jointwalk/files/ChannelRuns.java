package org.jointwalk.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jointwalk.fixture.Channel;
import org.jointwalk.stack.Contact;

/**
 * Channels to text and back, one by one or as a run: {@code {"from": 0, "contacts": "over
 * N001..N420"}} wires channel 0 to over N001, channel 1 to over N002, and so on. Stateless.
 */
final class ChannelRuns {

  /** First and last id of a run end in the same number of digits after the same letters. */
  private static final Pattern RUN =
      Pattern.compile("(over|under|point) (\\S*?)([0-9]{1,9})\\.\\.(\\S*?)([0-9]{1,9})");

  private static final Pattern NUMBERED = Pattern.compile("(.*?)([0-9]{1,9})");
  private static final String CONTACT = "a contact such as \"over N001\" or \"point P07\"";
  private static final String RUN_ALLOWED = "a run such as \"over N001..N420\"";

  /** The most channels that a file may have; a run must not fill the memory. */
  private static final int MOST = 65_536;

  private ChannelRuns() {}

  static List<Channel> read(Field item) {
    Channel.Use use =
        item.at("use").maybe(f -> f.word(Channel.Use.class)).orElse(Channel.Use.FORCE);
    if (item.at("from").given() || item.at("contacts").given()) {
      item.only(List.of("from", "contacts", "use"));
      int from = number(item.at("from"));
      return run(from, item.at("contacts"), use);
    }
    item.only(List.of("channel", "contact", "use"));
    if (!item.isObject()) {
      return List.of();
    }
    int number = number(item.at("channel"));
    Optional<Contact> contact = contact(item.at("contact"));
    return contact.map(c -> List.of(new Channel(number, c, use))).orElse(List.of());
  }

  private static int number(Field field) {
    int number = field.count(0);
    if (number >= MOST) {
      field.error("this number is too large", "0 to " + (MOST - 1), "Count channels from 0");
      return 0;
    }
    return number;
  }

  private static Optional<Contact> contact(Field field) {
    String text = field.text();
    Optional<Contact> contact = Names.contact(text);
    if (field.isText() && contact.isEmpty()) {
      field.error("this is no contact", CONTACT, "Write the plate or \"point\", a space, the id");
    }
    return contact;
  }

  private static List<Channel> run(int from, Field field, Channel.Use use) {
    Matcher run = RUN.matcher(field.text());
    if (!run.matches() || !run.group(2).equals(run.group(4))) {
      if (field.isText()) {
        field.error("this is no run of contacts", RUN_ALLOWED, "Or write channel by channel");
      }
      return List.of();
    }
    int first = Integer.parseInt(run.group(3));
    int last = Integer.parseInt(run.group(5));
    int digits = run.group(3).length();
    if (last < first || digits != run.group(5).length() || from + (last - first) >= MOST) {
      field.error(
          "this run does not count up",
          RUN_ALLOWED + " with equally many digits and at most " + MOST + " channels",
          "Put the smaller id first, with leading zeros");
      return List.of();
    }
    List<Channel> channels = new ArrayList<>();
    for (int i = first; i <= last; i++) {
      String id = run.group(2) + String.format(Locale.ROOT, "%0" + digits + "d", i);
      Names.contact(run.group(1) + " " + id)
          .ifPresent(contact -> channels.add(new Channel(from + channels.size(), contact, use)));
    }
    return channels;
  }

  /** Writes channels in their order; three and more that count up together become a run. */
  static void write(JsonOut out, List<Channel> channels) {
    int next = 0;
    while (next < channels.size()) {
      int end = next + 1;
      while (end < channels.size() && follows(channels.get(end - 1), channels.get(end))) {
        end++;
      }
      if (end - next >= 3) {
        Channel first = channels.get(next);
        String last = Names.of(channels.get(end - 1).contact());
        out.object()
            .with("from", first.number())
            .with(
                "contacts",
                Names.of(first.contact()) + ".." + last.substring(last.indexOf(' ') + 1));
        use(out, first);
        next = end;
      } else {
        Channel channel = channels.get(next);
        out.object().with("channel", channel.number()).with("contact", Names.of(channel.contact()));
        use(out, channel);
        next++;
      }
    }
  }

  private static void use(JsonOut out, Channel channel) {
    if (channel.use() != Channel.Use.FORCE) {
      out.with("use", channel.use());
    }
    out.end();
  }

  private static boolean follows(Channel before, Channel after) {
    if (before.use() != after.use() || before.number() + 1 != after.number()) {
      return false;
    }
    Matcher a = NUMBERED.matcher(Names.of(before.contact()));
    Matcher b = NUMBERED.matcher(Names.of(after.contact()));
    return a.matches()
        && b.matches()
        && a.group(1).equals(b.group(1))
        && a.group(2).length() == b.group(2).length()
        && Integer.parseInt(a.group(2)) + 1 == Integer.parseInt(b.group(2));
  }
}
