package org.gradus.bundled;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noFields;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaMethod;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.io.IOException;
import java.lang.module.ModuleDescriptor;
import java.lang.module.ModuleFinder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Holds the arrows between packages, and what the library may not use. */
class ArchitectureTest {

  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(new DoNotIncludeTests())
          // The kit for testers is a jar, but none of the library.
          .withImportOption(place -> !place.contains("testkit"))
          .importPackages("org.gradus");

  /** Each package with those it stands on directly; it may use what they stand on too. */
  private static final Map<String, List<String>> STANDS_ON = new LinkedHashMap<>();

  static {
    STANDS_ON.put("words", List.of());
    STANDS_ON.put("diagnostic", List.of("words"));
    STANDS_ON.put("unit", List.of("diagnostic"));
    STANDS_ON.put("rule.syntax", List.of("unit"));
    STANDS_ON.put("rule.check", List.of("rule.syntax"));
    STANDS_ON.put("rule.bounds", List.of("rule.check"));
    STANDS_ON.put("rule.answer", List.of("unit"));
    STANDS_ON.put("rule.plan", List.of("rule.bounds", "rule.answer"));
    STANDS_ON.put("rule", List.of("rule.plan"));
    STANDS_ON.put("knowledge", List.of("rule"));
    STANDS_ON.put("internal", List.of("rule.plan"));
    STANDS_ON.put("internal.json", List.of());
    STANDS_ON.put("protocol", List.of("knowledge", "internal"));
    STANDS_ON.put("internal.reach", List.of("protocol"));
    STANDS_ON.put("library", List.of("internal.reach"));
    STANDS_ON.put("session", List.of("protocol"));
    STANDS_ON.put("history", List.of("library", "training", "internal.json"));
    STANDS_ON.put("capacity", List.of("session"));
    STANDS_ON.put("review", List.of("session", "internal.reach"));
    STANDS_ON.put("cases", List.of("library", "capacity"));
    STANDS_ON.put("training", List.of("capacity"));
    STANDS_ON.put("report", List.of("training", "history"));
    STANDS_ON.put("trial", List.of("capacity", "library"));
    STANDS_ON.put("bundled", List.of("library"));
  }

  private static String of(String name) {
    return "org.gradus." + name;
  }

  @Test
  void everyPackageIsInTheTable() {
    classes()
        .should()
        .resideInAnyPackage(
            STANDS_ON.keySet().stream().map(ArchitectureTest::of).toArray(String[]::new))
        .check(CLASSES);
  }

  // Whoever reads a name anywhere in the repository knows which class it is.
  @Test
  void noTwoClassesShareAName() throws IOException {
    Map<String, Path> classes = new HashMap<>();
    List<String> twice = new ArrayList<>();
    try (Stream<Path> files = Files.walk(Path.of(".."))) {
      files
          .filter(file -> file.toString().contains("src/main/java"))
          .filter(file -> file.toString().endsWith(".java"))
          .filter(file -> !file.getFileName().toString().endsWith("-info.java"))
          .forEach(
              file -> {
                String name = file.getFileName().toString();
                Path other = classes.put(name, file);
                if (other != null) {
                  twice.add(file + " and " + other);
                }
              });
    }
    assertThat(classes).hasSizeGreaterThan(400);
    assertThat(twice).isEmpty();
  }

  @Test
  void arrowsPointOneWay() {
    STANDS_ON.forEach(
        (name, below) -> {
          Set<String> allowed = new LinkedHashSet<>(Set.of(of(name)));
          below.forEach(base -> collect(base, allowed));
          noClasses()
              .that(resideInAPackage(of(name)))
              .should()
              .dependOnClassesThat(
                  resideInAPackage("org.gradus..")
                      .and(not(resideInAnyPackage(allowed.toArray(new String[0])))))
              .because(name + " stands on " + below)
              .check(CLASSES);
        });
  }

  private static void collect(String name, Set<String> allowed) {
    if (allowed.add(of(name))) {
      STANDS_ON.getOrDefault(name, List.of()).forEach(base -> collect(base, allowed));
    }
  }

  @Test
  void eachForeignLibraryIsKnownToFewPackages() {
    onlyIn(List.of("rule.syntax"), "org.antlr..");
    onlyIn(List.of("library"), "org.snakeyaml..");
    onlyIn(List.of("capacity", "training"), "org.apache.commons.math3..");
  }

  // The others are closed to a host that runs on the module path.
  @Test
  void onlyExportedPackagesOfTheYamlReaderAreUsed() throws Exception {
    Path jar =
        Path.of(
            Class.forName("org.snakeyaml.engine.v2.api.Load")
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .toURI());
    String[] exported =
        ModuleFinder.of(jar).findAll().stream()
            .flatMap(module -> module.descriptor().exports().stream())
            .map(ModuleDescriptor.Exports::source)
            .toArray(String[]::new);
    assertThat(exported).contains("org.snakeyaml.engine.v2.api");
    noClasses()
        .should()
        .dependOnClassesThat(
            resideInAPackage("org.snakeyaml..").and(not(resideInAnyPackage(exported))))
        .check(CLASSES);
  }

  private static void onlyIn(List<String> names, String foreign) {
    noClasses()
        .that(
            not(
                resideInAnyPackage(
                    names.stream().map(ArchitectureTest::of).toArray(String[]::new))))
        .should()
        .dependOnClassesThat()
        .resideInAPackage(foreign)
        .check(CLASSES);
  }

  @Test
  void noPublicSignatureShowsAForeignLibrary() {
    methods()
        .that()
        .arePublic()
        .and()
        .areDeclaredInClassesThat()
        .arePublic()
        .should(showOnlyOwnAndJavaTypes())
        .check(withoutGenerated());
  }

  private static ArchCondition<JavaMethod> showOnlyOwnAndJavaTypes() {
    return new ArchCondition<>("show only own types and those of Java") {
      @Override
      public void check(JavaMethod method, ConditionEvents events) {
        Set<JavaClass> types = new LinkedHashSet<>(method.getRawParameterTypes());
        types.add(method.getRawReturnType());
        for (JavaClass type : types) {
          String name = type.getBaseComponentType().getName();
          boolean own =
              name.startsWith("org.gradus.") || name.startsWith("java.") || !name.contains(".");
          events.add(
              new SimpleConditionEvent(method, own, method.getFullName() + " shows " + name));
        }
      }
    };
  }

  @Test
  void thereIsNoClockNoLogAndNoReflection() {
    noClasses()
        .should()
        .dependOnClassesThat()
        .haveFullyQualifiedName("java.time.Clock")
        .orShould()
        .callMethod(System.class, "currentTimeMillis")
        .orShould()
        .callMethod(System.class, "nanoTime")
        .orShould()
        .callMethod(java.time.Instant.class, "now")
        .orShould()
        .dependOnClassesThat()
        .resideInAnyPackage("java.util.logging..", "java.lang.reflect..")
        .check(withoutGenerated());
  }

  // It refuses two events at the same time, and everything else is immutable.
  @Test
  void onlyASessionKnowsOfThreads() {
    noClasses()
        .that()
        .doNotHaveFullyQualifiedName("org.gradus.session.Session")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("java.util.concurrent..")
        .check(withoutGenerated());
  }

  @Test
  void thereIsNoMutableStaticState() {
    noFields().that().areStatic().should().notBeFinal().check(withoutGenerated());
  }

  // What the parser generator writes keeps to the rules of its own runtime.
  private static JavaClasses withoutGenerated() {
    return CLASSES.that(
        new DescribedPredicate<JavaClass>("written by hand") {
          @Override
          public boolean test(JavaClass type) {
            return !type.getName().startsWith("org.gradus.rule.syntax.Gradus");
          }
        });
  }
}
