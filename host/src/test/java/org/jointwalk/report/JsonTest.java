package org.jointwalk.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class JsonTest {

  private static List<String> keys(JsonNode node) {
    List<String> keys = new ArrayList<>();
    node.fieldNames().forEachRemaining(keys::add);
    return keys;
  }

  @Test
  void passIsOneLineWithEveryKeyOfTheFormatInItsOrder() throws Exception {
    String line = PassJson.line(Sample.job(), 1, 5);

    assertThat(line).doesNotContain("\n");
    JsonNode root = new ObjectMapper().readTree(line);
    assertThat(keys(root))
        .containsExactly(
            "format",
            "job",
            "pass",
            "setUp",
            "purpose",
            "seating",
            "positions",
            "bridges",
            "counts",
            "readings",
            "batches",
            "commits",
            "closures",
            "deviceSeconds",
            "wallSeconds");
    assertThat(keys(root.get("positions").get(0)))
        .containsExactly(
            "id",
            "grade",
            "ohms",
            "u",
            "limitOhms",
            "seatings",
            "confirmed",
            "detectableOhms",
            "reason");
    assertThat(keys(root.get("counts")))
        .containsExactly(
            "good",
            "high",
            "open",
            "bridged",
            "notContacted",
            "masked",
            "unresolved",
            "undecided",
            "lostBySplit",
            "notTested");
  }

  @Test
  void passSaysWhatItTook() {
    assertThat(PassJson.line(Sample.job(), 1, 5))
        .startsWith(
            "{\"format\":\"jointwalk pass result 1\",\"job\":\"J-0001\",\"pass\":1,"
                + "\"setUp\":\"interposer-on-lower\",\"purpose\":\"diagnosis\",\"seating\":2,"
                + "\"positions\":[{\"id\":\"N01\",\"grade\":\"open\",\"ohms\":null,\"u\":null,"
                + "\"limitOhms\":null,\"seatings\":2,\"confirmed\":true,"
                + "\"detectableOhms\":null,\"reason\":\"reading, limit and rule\"},")
        .contains(
            "{\"id\":\"N16\",\"grade\":\"high\",\"ohms\":4.5,\"u\":0.09,\"limitOhms\":0.3,"
                + "\"seatings\":2,\"confirmed\":true,\"detectableOhms\":null,")
        .contains("\"detectableOhms\":2.6")
        .endsWith(
            "\"bridges\":[{\"between\":[\"N17\",\"N18\"],\"ohms\":0.03,\"u\":0.002}],"
                + "\"counts\":{\"good\":5,\"high\":1,\"open\":15,\"bridged\":2,"
                + "\"notContacted\":0,\"masked\":1,\"unresolved\":0,\"undecided\":0,"
                + "\"lostBySplit\":0,\"notTested\":0},\"readings\":2,\"batches\":2,"
                + "\"commits\":5,\"closures\":7,\"deviceSeconds\":0.75,\"wallSeconds\":9.0}");
  }

  @Test
  void verdictWritesComponentsAsTheFilesDo() {
    assertThat(VerdictJson.line("J-0001", Sample.verdict()))
        .startsWith(
            "{\"format\":\"jointwalk verdict 1\",\"job\":\"J-0001\","
                + "\"headline\":\"LOWER JOINTS AT 15 PADS (PROBABLY)\",\"groups\":[{"
                + "\"regions\":[\"lowerJoints\"],\"components\":[\"lower joint N01\",")
        .contains("\"sureness\":\"probably\",\"because\":\"By exclusion: the pads are good.\"}]")
        .endsWith(
            "\"fit\":\"fits\",\"next\":{\"what\":\"Re-ball the lower side.\",\"minutes\":40,"
                + "\"setUp\":\"interposer-on-lower\"},\"remarks\":[\"Radio runs through N01.\"],"
                + "\"notSeen\":[\"1 pad is seen only as a set.\",\"Connected means connected"
                + " under clamp pressure.\"],\"rule\":\"test\"}");
  }
}
