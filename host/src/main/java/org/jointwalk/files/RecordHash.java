package org.jointwalk.files;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jointwalk.job.Logged;

/**
 * The fingerprint of a job's record: SHA-256 (FIPS 180-4) over all its entries as the log writes
 * them, each as one line of number, time, zone, kind, version and body with a tab between. Texts
 * that entries refer to are covered by the hashes that stand in the entries. Stateless.
 */
public final class RecordHash {

  private RecordHash() {}

  /**
   * The fingerprint of some entries; cost is linear in their text.
   *
   * @param entries in order
   * @param text the text that was kept under a hash, as {@code JobLog.text} does
   * @return 64 hexadecimal digits in lower case
   */
  public static String of(List<Logged> entries, Function<String, Optional<String>> text) {
    EventText bodies = new EventText((kind, kept) -> Sha256.of(kept), text);
    Sha256 digest = new Sha256();
    for (Logged entry : entries) {
      digest.add(
          String.join(
                  "\t",
                  Long.toString(entry.seq()),
                  entry.at().toString(),
                  entry.zone().getId(),
                  bodies.kind(entry.event()),
                  Integer.toString(bodies.version(entry.event())),
                  bodies.write(entry.event()))
              + "\n");
    }
    return digest.hex();
  }
}
