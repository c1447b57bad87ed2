package org.jointwalk.conform;

import static org.jointwalk.conform.Check.hidden;
import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Touch;

/** Numbers and framing: sections 2 to 4. Stateless. */
final class FramingChecks {

  private static final int MOST_PAYLOAD = 241;
  private static final int UNKNOWN_REQUEST = 0x3F;

  /** Four bytes that differ, so that their order shows. */
  private static final long ORDERED = 0x01020304L;

  private FramingChecks() {}

  static List<Check> all() {
    return List.of(
        new Check("M1", "numbers have their least byte first", FramingChecks::order),
        new Check("M2", "reserved bits and bytes are zero", FramingChecks::reserved),
        new Check("M3", "-2^31 is no reading and no setting", FramingChecks::least),
        new Check("M4", "text is plain UTF-8", FramingChecks::text),
        new Check("M5", "a raw frame has 9 to 250 bytes", FramingChecks::length),
        new Check("M6", "a frame with a wrong check is dropped", FramingChecks::check),
        new Check("M7", "the longest frame is read", FramingChecks::longest),
        hidden("M8", "full blocks of COBS", "frames of this protocol are too short for one"),
        new Check("M9", "what is not COBS is dropped", FramingChecks::encoding),
        new Check("M10", "empty frames count nowhere", FramingChecks::empty),
        new Check("M11", "dropped frames are counted and do nothing", FramingChecks::counted),
        new Check("M12", "an oversize frame goes up to its delimiter", FramingChecks::oversize),
        new Check("M13", "the frame after noise is read, whole or in pieces", FramingChecks::again),
        new Check("M15", "what only a fixture sends is dropped", FramingChecks::direction),
        new Check("M16", "a payload has exactly its length", FramingChecks::payload));
  }

  private static String order(Talk talk) throws Breach, IOException {
    talk.open();
    talk.declare(talk.able().all(Able.touch(Touch.Kind.SIGNAL)));
    Answer.State state = talk.begin(ORDERED, 1, ORDERED);
    Engine.stop(talk);
    require(
        state.account().loaded() == ORDERED && state.account().done() == ORDERED,
        String.format(
            Locale.ROOT,
            "a run from 0x%08X on has loaded 0x%08X",
            ORDERED,
            state.account().loaded()));
    return "";
  }

  private static String reserved(Talk talk) throws Breach, IOException {
    talk.open();
    RawFrame hello = talk.next(new Request.Hello(1, 1, false, talk.nonce(), 0));
    talk.refusal(hello.with(7, 1), Refusal.BAD_VALUE);
    talk.refusal(hello.with(6, 2), Refusal.BAD_VALUE);
    Request.Declare declare = Able.declare(List.of(Able.touch(Touch.Kind.SIGNAL)));
    RawFrame declared = talk.next(declare);
    talk.refusal(declared.with(0, 0x12), Refusal.BAD_VALUE);
    talk.refusal(flags(talk.next(declare), 4), Refusal.BAD_VALUE);
    return "";
  }

  /** DECLARE with one class and its flags. */
  private static RawFrame flags(RawFrame declare, int flags) {
    return declare.with(declare.payload().size() - 5, flags);
  }

  private static String least(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    talk.begin(0, 1, 1);
    RawFrame setting = talk.streamed(Engine.quietSetting(talk));
    Engine.fault(
        talk, setting.with(9, 0, 0, 0, 0x80), ProgramFault.UNREADABLE, "a voltage of -2^31");
    return "";
  }

  private static String text(Talk talk) throws Breach, IOException {
    talk.open();
    RawFrame declare = talk.next(Able.declare(List.of()));
    talk.refusal(declare.with(2, 0x07), Refusal.BAD_VALUE);
    talk.refusal(talk.next(Able.declare(List.of())).with(2, 0x7F), Refusal.BAD_VALUE);
    talk.refusal(talk.next(Able.declare(List.of())).with(2, 0xC0, 0x80), Refusal.BAD_VALUE);
    return "";
  }

  private static byte[] status(Talk talk) {
    return talk.next(new Request.Status()).raw();
  }

  private static String length(Talk talk) throws Breach, IOException {
    talk.open();
    byte[] brief = Arrays.copyOf(status(talk), 8);
    RawFrame.check(brief);
    talk.silence(RawFrame.wire(brief), "a raw frame of 8 bytes");
    return "";
  }

  private static String check(Talk talk) throws Breach, IOException {
    talk.open();
    for (int at = 0; at < 9; at++) {
      byte[] raw = status(talk);
      raw[at] ^= 0x10;
      talk.silence(RawFrame.wire(raw), "a frame with one wrong bit");
    }
    return "";
  }

  private static String longest(Talk talk) throws Breach, IOException {
    talk.open();
    RawFrame full = talk.next(new Request.Status()).typed(UNKNOWN_REQUEST).sized(MOST_PAYLOAD);
    int[] ones = new int[MOST_PAYLOAD];
    Arrays.fill(ones, 0x5A);
    talk.refusal(full.with(0, ones), Refusal.UNKNOWN_TYPE);
    return "";
  }

  private static String encoding(Talk talk) throws Breach, IOException {
    talk.open();
    byte[] wire = RawFrame.wire(status(talk));
    int code = 0;
    while (code + (wire[code] & 0xFF) < wire.length - 1) {
      code += wire[code] & 0xFF;
    }
    wire[code]++;
    talk.silence(wire, "an encoding with a code that points beyond its end");
    return "";
  }

  private static String empty(Talk talk) throws Breach, IOException {
    talk.open();
    Answer.State before = talk.status();
    talk.send(new byte[40]);
    Answer.State after = talk.status();
    require(
        after.dropped() == before.dropped() && after.oversize() == before.oversize(),
        "delimiters in a row were counted as dropped frames");
    return "";
  }

  private static String counted(Talk talk) throws Breach, IOException {
    talk.open();
    talk.declare(talk.able().all(Able.touch(Touch.Kind.SIGNAL)));
    Answer.State before = talk.status();
    for (int i = 0; i < 5; i++) {
      byte[] raw = talk.next(Able.declare(List.of())).raw();
      raw[raw.length - 1 - i % 4] ^= 1;
      talk.send(RawFrame.wire(raw));
    }
    int dropped = talk.status().dropped() - before.dropped() & 0xFFFF;
    require(dropped == 5, "of 5 damaged frames " + dropped + " were counted");
    talk.begin(0, 1, 0);
    Engine.stop(talk);
    return "";
  }

  private static String oversize(Talk talk) throws Breach, IOException {
    talk.open();
    Answer.State before = talk.status();
    byte[] tail = RawFrame.wire(status(talk));
    byte[] long252 = new byte[252 + tail.length];
    Arrays.fill(long252, 0, 252, (byte) 0x33);
    System.arraycopy(tail, 0, long252, 252, tail.length);
    talk.silence(long252, "the end of an oversize frame");
    int oversize = talk.status().oversize() - before.oversize() & 0xFFFF;
    require(oversize == 1, "one oversize frame was counted " + oversize + " times");
    return "";
  }

  private static String again(Talk talk) throws Breach, IOException {
    talk.open();
    byte[] noise = new byte[180];
    for (int round = 0; round < 4; round++) {
      talk.random().nextBytes(noise);
      talk.send(Arrays.copyOf(RawFrame.wire(status(talk)), 3 + round));
      talk.send(new byte[1]);
      talk.status();
      talk.send(noise);
      talk.send(new byte[1]);
      talk.await(came -> false, 20);
      talk.status();
    }
    RawFrame slow = talk.next(new Request.Status());
    byte[] wire = slow.wire();
    talk.tap().asked(slow);
    for (int i = 0; i < wire.length; i++) {
      talk.send(new byte[] {wire[i]});
      talk.await(came -> false, i == 4 ? 400 : 8);
    }
    require(
        talk.await(came -> came.answers(slow), 500).isPresent(),
        "a frame in single bytes with pauses was not answered");
    return "";
  }

  private static String direction(Talk talk) throws Breach, IOException {
    talk.open();
    for (int type : new int[] {0x84, 0xC1, 0xE5}) {
      RawFrame echo = talk.next(new Request.Status()).typed(type);
      talk.silence(echo.wire(), "a frame of type " + type + ", which only a fixture sends,");
    }
    return "";
  }

  private static String payload(Talk talk) throws Breach, IOException {
    talk.open();
    Answer.Refused refused =
        talk.refusal(talk.next(new Request.Status()).plus(0), Refusal.BAD_LENGTH);
    require(refused.detail() == 1, "BAD_LENGTH of one byte has the detail " + refused.detail());
    talk.refusal(talk.next(new Request.Capabilities(0)).sized(0), Refusal.BAD_LENGTH);
    talk.refusal(talk.next(new Request.Capabilities(0)).sized(2), Refusal.BAD_LENGTH);
    RawFrame run = talk.next(new Request.Run(1, 0, 1, 0, 0));
    talk.refusal(run.sized(19), Refusal.BAD_LENGTH);
    Engine.signals(talk);
    talk.begin(0, 1, 0);
    RawFrame credit = talk.streamed(new Streamed.Credit(talk.run(), 1));
    Engine.fault(talk, credit.plus(0), ProgramFault.UNREADABLE, "CREDIT with a byte too many");
    return "";
  }
}
