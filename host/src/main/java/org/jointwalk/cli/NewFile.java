package org.jointwalk.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/**
 * A file that a command makes. One that is there is replaced only when that was asked for, and then
 * in one step, so that a full disk leaves the old one whole. For one command.
 *
 * @param path as it was typed
 * @param replaces whether one that is there may go
 */
record NewFile(Path path, boolean replaces) {

  /**
   * Sees to it that the file can be made, before any work is done.
   *
   * @throws InputException when it is there and must not be replaced, or has no place
   */
  void requirePossible() throws InputException {
    if (Files.isDirectory(path)) {
      throw new InputException(path + " is a folder. Name a file inside it.");
    }
    if (Files.exists(path) && !replaces) {
      throw there();
    }
    Path folder = folder(path);
    if (!Files.isDirectory(folder)) {
      throw new InputException(
          "There is no folder " + folder + " for " + path + ". Make it first, or name another.");
    }
  }

  /**
   * Sees to it that the file is none of those that the command reads.
   *
   * @throws InputException when it is
   */
  void requireOther(Path source) throws InputException {
    if (path.toAbsolutePath().normalize().equals(source.toAbsolutePath().normalize())) {
      throw new InputException(
          path + " is what the command reads. Give another name for what it writes.");
    }
  }

  /**
   * Writes the whole file, in UTF-8.
   *
   * @throws InputException when it cannot be written; what was there before is still there
   */
  void write(String text) throws InputException {
    write(text.getBytes(UTF_8));
  }

  /**
   * Writes the whole file.
   *
   * @throws InputException when it cannot be written; what was there before is still there
   */
  void write(byte[] bytes) throws InputException {
    try {
      Path target = Files.exists(path) ? path.toRealPath() : path;
      Path part = folder(target).resolve(target.getFileName() + ".part" + me());
      try {
        Files.write(part, bytes);
        if (replaces) {
          Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        } else {
          Files.move(part, target);
        }
      } finally {
        Files.deleteIfExists(part);
      }
    } catch (FileAlreadyExistsException e) {
      throw there();
    } catch (IOException e) {
      throw new InputException(
          path
              + " cannot be written ("
              + e.getClass().getSimpleName()
              + "). Check the permissions of the folder and whether the disk is full.");
    }
  }

  private InputException there() {
    return new InputException(
        path + " is there already. Give another name, or --force to replace it.");
  }

  private static long me() {
    return ProcessHandle.current().pid();
  }

  private static Path folder(Path path) {
    Path parent = path.toAbsolutePath().getParent();
    return parent == null ? path.toAbsolutePath() : parent;
  }
}
