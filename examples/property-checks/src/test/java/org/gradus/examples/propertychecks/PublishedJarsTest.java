package org.gradus.examples.propertychecks;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.lang.module.ModuleDescriptor;
import java.lang.module.ModuleFinder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.jar.JarFile;
import org.gradus.bundled.Bundled;
import org.gradus.library.Library;
import org.gradus.review.Review;
import org.gradus.testkit.Law;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Every jar that is published carries the licence and the notice. It runs in the phase {@code
 * verify}, when the jars of the other modules are packaged; anywhere else there are no jars to
 * open.
 */
@EnabledIfSystemProperty(named = "gradus.packaged", matches = "true")
class PublishedJarsTest {

  private static final Path LEGAL = Path.of("..", "..", ".legal");

  // One class of each jar: grammar, engine, authoring, the kit for testers, protocols.
  @ParameterizedTest
  @ValueSource(classes = {Unit.class, Library.class, Review.class, Law.class, Bundled.class})
  void theyCarryTheLicenceAndTheNotice(Class<?> inside) throws Exception {
    Path jar = Path.of(inside.getProtectionDomain().getCodeSource().getLocation().toURI());
    assertThat(jar.getFileName().toString()).startsWith("gradus-").endsWith(".jar");
    try (JarFile opened = new JarFile(jar.toFile())) {
      for (String name : new String[] {"META-INF/LICENSE", "META-INF/NOTICE"}) {
        assertThat(text(opened, name))
            .as("%s in %s", name, jar)
            .isEqualTo(Files.readString(LEGAL.resolve(name), UTF_8));
      }
      assertThat(opened.getManifest().getMainAttributes().getValue("Bundle-License"))
          .isEqualTo("Apache-2.0");
      assertThat(text(opened, "META-INF/LICENSE"))
          .contains("Apache License", "Version 2.0, January 2004")
          .contains("9. Accepting Warranty or Additional Liability")
          .contains("END OF TERMS AND CONDITIONS");
      assertThat(text(opened, "META-INF/NOTICE")).startsWith("Gradus").contains("maintainers");
    }
  }

  // The name and the packages of a module are a promise to hosts on the module path.
  @ParameterizedTest
  @ValueSource(classes = {Unit.class, Library.class, Review.class, Law.class, Bundled.class})
  void theyAreNamedModulesThatExportTheirPackages(Class<?> inside) throws Exception {
    Path jar = Path.of(inside.getProtectionDomain().getCodeSource().getLocation().toURI());
    ModuleDescriptor module = ModuleFinder.of(jar).findAll().iterator().next().descriptor();
    assertThat(module.isAutomatic()).as("%s is an automatic module", jar).isFalse();
    assertThat(jar.getFileName().toString().replace('-', '.'))
        .startsWith(module.name().substring("org.".length()));
    assertThat(module.exports())
        .filteredOn(export -> !export.isQualified())
        .extracting(ModuleDescriptor.Exports::source)
        .contains(inside.getPackageName());
  }

  private static String text(JarFile jar, String name) throws Exception {
    assertThat(jar.getEntry(name)).as("%s in %s", name, jar.getName()).isNotNull();
    try (InputStream stream = jar.getInputStream(jar.getEntry(name))) {
      return new String(stream.readAllBytes(), UTF_8);
    }
  }
}
