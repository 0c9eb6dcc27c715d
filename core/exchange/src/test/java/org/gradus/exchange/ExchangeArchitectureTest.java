package org.gradus.exchange;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noFields;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Holds what the packages of exchange stand on, and that nothing stands on them. */
class ExchangeArchitectureTest {

  private static final JavaClasses OWN =
      new ClassFileImporter()
          .withImportOption(new DoNotIncludeTests())
          .importPackages("org.gradus.exchange");

  /** Each package with those of the engine and the language that it uses. */
  private static final Map<String, List<String>> STANDS_ON =
      Map.of(
          "device", List.of("unit", "diagnostic", "protocol", "session"),
          "table",
              List.of("unit", "diagnostic", "protocol", "library", "session", "capacity", "report"),
          "fhir",
              List.of(
                  "unit",
                  "diagnostic",
                  "protocol",
                  "library",
                  "session",
                  "history",
                  "capacity",
                  "training",
                  "report",
                  "knowledge",
                  "internal.json"));

  @Test
  void everyPackageStandsOnNoMoreThanItsList() {
    classes()
        .should()
        .resideInAnyPackage(
            STANDS_ON.keySet().stream()
                .map(name -> "org.gradus.exchange." + name)
                .toArray(String[]::new))
        .check(OWN);
    STANDS_ON.forEach(
        (name, below) -> {
          List<String> allowed = new ArrayList<>(List.of("org.gradus.exchange." + name));
          below.forEach(base -> allowed.add("org.gradus." + base));
          noClasses()
              .that(resideInAPackage("org.gradus.exchange." + name))
              .should()
              .dependOnClassesThat(
                  resideInAPackage("org.gradus..")
                      .and(
                          DescribedPredicate.not(
                              JavaClass.Predicates.resideInAnyPackage(
                                  allowed.toArray(new String[0])))))
              .because(name + " stands on " + below)
              .check(OWN);
        });
  }

  // The engine, its tools and the bundled files are there for hosts without a test room too. A
  // module
  // can use only what its pom names.
  @ParameterizedTest
  @ValueSource(
      strings = {"../../grammar", "../engine", "../authoring", "../testkit", "../../protocols"})
  void noOtherModuleOfTheLibraryNamesExchange(String module) throws IOException {
    assertThat(Files.readString(Path.of(module, "pom.xml"))).doesNotContain("gradus-exchange");
  }

  @Test
  void onlyTablesKnowTheLibraryForTables() {
    noClasses()
        .that(DescribedPredicate.not(resideInAPackage("org.gradus.exchange.table")))
        .should()
        .dependOnClassesThat()
        .resideInAPackage("org.apache..")
        .check(OWN);
    methods()
        .that()
        .arePublic()
        .should()
        .notHaveRawReturnType(resideInAPackage("org.apache.."))
        .check(OWN);
  }

  @Test
  void thereIsNoClockNoLogNoThreadNoReflectionAndNoMutableStaticState() {
    noClasses()
        .should()
        .dependOnClassesThat()
        .haveFullyQualifiedName("java.time.Clock")
        .orShould()
        .callMethod(System.class, "currentTimeMillis")
        .orShould()
        .callMethod(System.class, "nanoTime")
        .orShould()
        .callMethod(java.time.OffsetDateTime.class, "now")
        .orShould()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "java.util.logging..", "java.lang.reflect..", "java.util.concurrent..", "java.net..")
        .check(OWN);
    noFields().that().areStatic().should().notBeFinal().check(OWN);
  }
}
