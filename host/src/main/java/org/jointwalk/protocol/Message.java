package org.jointwalk.protocol;

/**
 * What a frame carries. Component names are the field names of the specification; numbers are raw,
 * in the units it gives.
 */
public sealed interface Message permits Request, Answer, Streamed, Notice {

  /** The number that tells it from others on the line. */
  int type();

  /** Its content in bytes, at most {@link Frame#MOST_PAYLOAD}. */
  Bytes payload();

  /** Reads a payload of a type that may come from the host, or from a fixture. */
  static Message read(int type, In in) throws Malformed {
    return switch (type) {
      case Request.Hello.TYPE -> Request.Hello.read(in);
      case Request.Capabilities.TYPE -> Request.Capabilities.read(in);
      case Request.Declare.TYPE -> Request.Declare.read(in);
      case Request.Channels.TYPE -> Request.Channels.read(in);
      case Request.Run.TYPE -> Request.Run.read(in);
      case Request.Stop.TYPE -> Request.Stop.read(in);
      case Request.Status.TYPE -> Request.Status.read(in);
      case Streamed.Setting.TYPE -> Streamed.Setting.read(in);
      case Streamed.SetBits.TYPE -> Streamed.readSet(in);
      case Streamed.Steps.TYPE -> Streamed.Steps.read(in);
      case Streamed.Credit.TYPE -> Streamed.Credit.read(in);
      case Answer.Refused.TYPE -> Answer.Refused.read(in);
      case Answer.Welcome.TYPE -> Answer.Welcome.read(in);
      case Answer.Page.TYPE -> Answer.Page.read(in);
      case Answer.Declared.TYPE -> Answer.Declared.read(in);
      case Answer.State.TYPE -> Answer.State.read(in);
      case Notice.Results.TYPE -> Notice.Results.read(in);
      case Notice.Bits.TYPE -> Notice.Bits.read(in);
      case Notice.Check.TYPE -> Notice.Check.read(in);
      case Notice.Heard.TYPE -> Notice.Heard.read(in);
      case Notice.End.TYPE -> Notice.End.read(in);
      case Notice.Event.TYPE -> Notice.Event.read(in);
      default -> throw new Malformed(Refusal.UNKNOWN_TYPE, 0);
    };
  }
}
