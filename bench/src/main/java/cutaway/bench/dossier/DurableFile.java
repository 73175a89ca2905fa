package cutaway.bench.dossier;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Objects;
import java.util.UUID;

/** Writes files whole or not at all. */
public final class DurableFile {
  private DurableFile() {}

  /** Writes text as {@link #write(Path, byte[])} does. */
  public static void write(Path file, String text) {
    write(file, text.getBytes(StandardCharsets.UTF_8));
  }

  /**
   * Writes to a temporary file beside the target, syncs it, and renames it over the target.
   *
   * @throws ProblemException where the folder cannot be written to or the disk is full; the target
   *     is then as it was
   */
  public static void write(Path file, byte[] bytes) {
    Path folder = Objects.requireNonNull(file.toAbsolutePath().getParent(), "a file has a folder");
    Path temporary = folder.resolve("." + file.getFileName() + "." + UUID.randomUUID() + ".part");
    try {
      Files.createDirectories(folder);
      try (FileChannel channel =
          FileChannel.open(
              temporary,
              // new and of an unforeseen name: neither a link laid out for it nor a second run is
              // met
              StandardOpenOption.CREATE_NEW,
              StandardOpenOption.WRITE)) {
        ByteBuffer buffer = ByteBuffer.wrap(bytes);
        while (buffer.hasRemaining()) {
          channel.write(buffer);
        }
        channel.force(true);
      }
      Files.move(
          temporary, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      sync(folder);
    } catch (IOException e) {
      discard(temporary);
      throw new ProblemException(
          Problem.of(
              file.toString(),
              "cannot be written (" + reason(e) + ")",
              "check permissions and free space; nothing was changed"));
    }
  }

  /** Why, as the system puts it. */
  static String reason(IOException e) {
    String reason = e instanceof FileSystemException f ? f.getReason() : e.getMessage();
    return reason == null ? e.getClass().getSimpleName() : reason;
  }

  private static void discard(Path temporary) {
    try {
      Files.deleteIfExists(temporary);
    } catch (IOException e) {
      // the folder cannot be written to; there is nothing to take away either
      return;
    }
  }

  /** Makes the rename itself survive a power cut, where the system lets a folder be synced. */
  private static void sync(Path folder) {
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (IOException e) {
      return;
    }
  }
}
