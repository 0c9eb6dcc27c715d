package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The BOM names every library, the release script builds it, and nothing else. */
class BomTest {

  private static final Path TOP = Path.of("..");
  private static final Pattern PLUGIN =
      Pattern.compile("<artifactId>([\\w-]+-plugin)</artifactId>\\s*<version>([^<]+)</version>");
  private static final Pattern ARTIFACT = Pattern.compile("<artifactId>(gradus-\\w+)</artifactId>");

  /** The modules of libraries: those with a {@code module-info} that are no examples. */
  private static Set<Path> libraries() throws IOException {
    Set<Path> libraries = new TreeSet<>();
    try (Stream<Path> files = Files.find(TOP, 6, (path, is) -> path.endsWith("module-info.java"))) {
      files
          .map(path -> TOP.relativize(path))
          .filter(path -> !path.startsWith("examples"))
          .filter(path -> path.toString().contains("src/main/java"))
          .forEach(path -> libraries.add(path.subpath(0, path.getNameCount() - 4)));
    }
    return libraries;
  }

  private static String artifact(Path module) throws IOException {
    String pom = Files.readString(TOP.resolve(module).resolve("pom.xml"));
    String own = pom.substring(pom.indexOf("</parent>"));
    return ARTIFACT.matcher(own).results().findFirst().orElseThrow().group(1);
  }

  @Test
  void theBomListsEveryLibrary() throws IOException {
    Set<String> artifacts = new TreeSet<>();
    for (Path module : libraries()) {
      artifacts.add(artifact(module));
    }
    String bom = Files.readString(TOP.resolve("bom/pom.xml"));
    String managed = bom.substring(bom.indexOf("<dependencyManagement>"));
    assertThat(ARTIFACT.matcher(managed).results().map((MatchResult one) -> one.group(1)))
        .containsExactlyInAnyOrderElementsOf(artifacts);
  }

  @Test
  void theReleaseConsistsOfTheBomAndEveryLibrary() throws IOException {
    String script = Files.readString(TOP.resolve(".ci/release"));
    String listed = script.lines().filter(line -> line.startsWith("libraries=")).findFirst().get();
    Set<String> modules = new TreeSet<>(Set.of("bom"));
    libraries().forEach(module -> modules.add(module.toString()));
    assertThat(listed.substring("libraries=".length()).split(","))
        .containsExactlyInAnyOrderElementsOf(modules);
  }

  // Without a parent, a plugin that the BOM does not pin has the version that Maven came with.
  @Test
  void theBomPinsThePluginsOfAReleaseAsTheTopDoes() throws IOException {
    Map<String, String> pinned = new TreeMap<>();
    PLUGIN
        .matcher(Files.readString(TOP.resolve("bom/pom.xml")))
        .results()
        .forEach(plugin -> pinned.put(plugin.group(1), plugin.group(2)));
    assertThat(pinned)
        .containsKeys("maven-deploy-plugin", "maven-install-plugin", "maven-gpg-plugin");
    String top = Files.readString(TOP.resolve("pom.xml"));
    Map<String, String> expected = new TreeMap<>();
    PLUGIN
        .matcher(top)
        .results()
        .filter(plugin -> pinned.containsKey(plugin.group(1)))
        .forEach(plugin -> expected.put(plugin.group(1), property(top, plugin.group(2))));
    assertThat(pinned).isEqualTo(expected);
  }

  private static String property(String pom, String reference) {
    String open = "<" + reference.substring(2, reference.length() - 1) + ">";
    int from = pom.indexOf(open) + open.length();
    return pom.substring(from, pom.indexOf('<', from));
  }
}
