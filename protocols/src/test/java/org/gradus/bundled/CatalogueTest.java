package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.gradus.library.Library;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.Heading;
import org.gradus.protocol.Protocol;
import org.junit.jupiter.api.Test;

/** The catalogue for people says what the files say, and finds what is looked for. */
class CatalogueTest {

  private static final Library LIBRARY = Bundled.library();

  @Test
  void theTableIsMadeOfTheFiles() throws IOException {
    String table =
        LIBRARY.protocols().stream()
            .map(id -> row(LIBRARY.protocol(id)))
            .collect(Collectors.joining("\n"));
    assertThat(Files.readString(Path.of("README.md"))).contains(table);
  }

  private static String row(Protocol protocol) {
    Heading heading = protocol.heading();
    int published = 0;
    int practice = 0;
    int memory = 0;
    SourcedItems items = SourcedItems.of(Parts.named(heading.id() + ".yaml"));
    for (SourcedItems.Item item : items.all()) {
      for (String key : item.sources()) {
        if (key.equals("practice")) {
          practice++;
        } else if (items.citation(key).contains("from memory")) {
          memory++;
        } else {
          published++;
        }
      }
    }
    String estimates =
        Stream.concat(
                protocol.assessment().estimates().stream(),
                protocol.assessment().results().stream())
            .map(EstimateLine::id)
            .collect(Collectors.joining(", "));
    return "| `%s` | %s | %s, %s | %d-%d | %d min | %s | %d | %d | %d |"
        .formatted(
            heading.id(),
            heading.title(),
            heading.ergometer(),
            heading.purpose(),
            protocol.eligibility().youngest(),
            protocol.eligibility().oldest(),
            Math.round(protocol.longest().toSeconds() / 60.0),
            estimates,
            published,
            practice,
            memory);
  }

  @Test
  void protocolsAreFoundByIdTitleErgometerAndCitation() {
    assertThat(ids("branching")).containsExactly("cycle-branching");
    assertThat(ids("two EASIER stages")).containsExactly("graded-walk-modified");
    assertThat(ids("arm-crank")).containsExactly("arm-crank-steps");
    assertThat(ids("Cardiol 1964")).containsExactly("two-mph-walk");
    assertThat(ids("treadmill submaximal CARDIOL 1964")).containsExactly("two-mph-walk");
    assertThat(ids("no-such-word")).isEmpty();
    assertThat(ids("  ")).isEqualTo(LIBRARY.protocols());
  }

  @Test
  void marksOnLettersMakeNoDifference() {
    assertThat(ids("c\u00e1rdiol 1964")).containsExactly("two-mph-walk");
  }

  private static List<String> ids(String words) {
    return LIBRARY.find(words).stream().map(Heading::id).toList();
  }
}
