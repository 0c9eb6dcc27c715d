package org.gradus.library;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;

/** Turns the bytes of a file into text. */
final class FileBytes {

  // A character takes four bytes at most.
  private static final int MOST_BYTES = 4 * YamlReader.MOST_CHARACTERS;

  private FileBytes() {}

  /** The file, read as UTF-8; nothing when it is none, which has then been noted. */
  static Optional<SourceFile> read(String name, InputStream stream, Problems problems)
      throws IOException {
    byte[] bytes = stream.readNBytes(MOST_BYTES + 1);
    if (bytes.length > MOST_BYTES) {
      problems.add(
          Span.all(name, ""),
          Code.G308,
          "more than " + MOST_BYTES + " bytes",
          Integer.toString(MOST_BYTES));
      return Optional.empty();
    }
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    CharBuffer decoded = CharBuffer.allocate(bytes.length + 1);
    CoderResult result = decoder.decode(ByteBuffer.wrap(bytes), decoded, true);
    String all = decoded.flip().toString();
    SourceFile file = SourceFile.of(name, all.startsWith("\uFEFF") ? all.substring(1) : all);
    if (result.isError()) {
      // The text up to the first wrong byte shows where it is.
      int end = file.text().length();
      problems.add(
          new Span(file, end, end), Code.G301, "its bytes are not UTF-8 text", "save it as UTF-8");
      return Optional.empty();
    }
    return Optional.of(file);
  }
}
