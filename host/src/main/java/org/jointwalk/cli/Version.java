package org.jointwalk.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Properties;
import picocli.CommandLine.IVersionProvider;

/** The version the build wrote down, so that it is the same from a jar and from loose classes. */
final class Version implements IVersionProvider {

  @Override
  public String[] getVersion() throws IOException {
    return new String[] {"jointwalk " + number()};
  }

  static String number() throws IOException {
    try (InputStream stream = Version.class.getResourceAsStream("version.properties")) {
      if (stream == null) {
        throw new IOException("version.properties is missing from the program; build it again");
      }
      Properties properties = new Properties();
      properties.load(new InputStreamReader(stream, StandardCharsets.UTF_8));
      return properties.getProperty("version", "unknown");
    }
  }
}
