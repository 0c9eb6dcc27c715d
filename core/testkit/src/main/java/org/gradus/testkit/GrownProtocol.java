package org.gradus.testkit;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Random;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;

/**
 * A protocol that was made up at random, with every structure a protocol can have.
 *
 * @param text its file
 * @param library the library it is alone in
 * @param protocol the protocol
 */
public record GrownProtocol(String text, Library library, Protocol protocol) {
  public GrownProtocol {
    requireNonNull(library, "library");
    requireNonNull(protocol, "protocol");
    requireNonNull(text, "text");
  }

  /**
   * Makes one up.
   *
   * @throws org.gradus.diagnostic.FileRefused when it does not load, which a test should show
   */
  public static GrownProtocol of(Random random) {
    requireNonNull(random, "random");
    String text = new ProtocolGrower(random).text();
    Library library = Library.of(List.of(SourceFile.of("grown.yaml", text)));
    return new GrownProtocol(text, library, library.protocol("grown"));
  }

  @Override
  public String toString() {
    return text;
  }
}
