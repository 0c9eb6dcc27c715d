package org.gradus.examples.fleet;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.Serializable;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.Json;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;

/**
 * A protocol with all files it rests on, as it is published to the fleet.
 *
 * @param id the id of the protocol
 * @param time when it was published, in milliseconds since 1970
 * @param files the texts of the files by their names
 */
public record ProtocolFiles(String id, long time, Map<String, String> files)
    implements Serializable {

  private static final int SHORT = 12;

  /**
   * The files of a protocol.
   *
   * @throws org.gradus.diagnostic.NotFound when the library has no such protocol
   */
  public static ProtocolFiles of(Library library, String id, long time) {
    Map<String, String> files = new TreeMap<>();
    library.filesOf(id).forEach(file -> files.put(file.name(), file.text()));
    return new ProtocolFiles(id, time, files);
  }

  /**
   * A library of these files.
   *
   * @throws org.gradus.diagnostic.FileRefused with every problem of every file
   */
  Library library() {
    List<SourceFile> sources =
        files.entrySet().stream()
            .map(file -> SourceFile.of(file.getKey(), file.getValue()))
            .toList();
    return Library.of(sources, List.of(id));
  }

  /**
   * What the fleet calls this version: the id, the version in the file, and a digest of all files,
   * since an equation may change without the protocol.
   */
  String version(Protocol protocol) {
    byte[] bytes = Json.write(new TreeMap<>(files)).getBytes(UTF_8);
    try {
      String digest = HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
      return id + " " + protocol.heading().version() + " " + digest.substring(0, SHORT);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
