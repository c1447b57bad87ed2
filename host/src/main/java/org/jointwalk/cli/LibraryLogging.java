package org.jointwalk.cli;

import java.util.logging.Formatter;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogManager;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import java.util.logging.SimpleFormatter;

/**
 * Sends what libraries log, from warnings on, to the program's log file and never to the terminal.
 *
 * <p>The platform makes one of these when a library logs for the first time, because {@link
 * #install} left its name; until then logging costs nothing.
 */
public final class LibraryLogging {

  private static final String CONFIG_CLASS = "java.util.logging.config.class";

  /** Called by the platform. */
  public LibraryLogging() {
    Logger root = LogManager.getLogManager().getLogger("");
    for (Handler handler : root.getHandlers()) {
      root.removeHandler(handler);
    }
    root.setLevel(Level.WARNING);
    root.addHandler(new ToFile(new ProgramLog(Surroundings.ofThisComputer(stop -> {}))));
  }

  /** Asks the platform to use this class, unless the user configures logging. */
  static void install() {
    if (System.getProperty(CONFIG_CLASS) == null
        && System.getProperty("java.util.logging.config.file") == null) {
      System.setProperty(CONFIG_CLASS, LibraryLogging.class.getName());
    }
  }

  private static final class ToFile extends Handler {

    private final ProgramLog log;
    private final Formatter formatter = new SimpleFormatter();

    private ToFile(ProgramLog log) {
      this.log = log;
      setLevel(Level.WARNING);
    }

    @Override
    public void publish(LogRecord record) {
      if (isLoggable(record)) {
        log.add(formatter.format(record));
      }
    }

    @Override
    public void flush() {
      // Every record is written at once.
    }

    @Override
    public void close() {
      // No file is held open.
    }
  }
}
