package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.InstanceofCheck;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * A method that asks "is it this? is it that?" of the members of a sealed family does nothing,
 * without a word, for a member that is added later. Abstract methods and visitors do not compile
 * until the new member is dealt with.
 */
class ExhaustiveTest {

  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(new DoNotIncludeTests())
          .withImportOption(place -> !place.contains("testkit"))
          .importPackages("org.gradus");

  /** The packages without such methods. The list may only grow, and the last test makes it grow. */
  private static final Set<String> HELD =
      Set.of(
          "org.gradus.bundled",
          "org.gradus.diagnostic",
          "org.gradus.history",
          "org.gradus.internal",
          "org.gradus.internal.json",
          "org.gradus.knowledge",
          "org.gradus.protocol",
          "org.gradus.report",
          "org.gradus.rule.syntax",
          "org.gradus.rule.check",
          "org.gradus.rule.answer",
          "org.gradus.rule.bounds",
          "org.gradus.rule.plan",
          "org.gradus.session",
          "org.gradus.training",
          "org.gradus.unit",
          "org.gradus.words");

  /** They end in a call of the method itself, so that every member is evaluated. */
  private static final Set<String> SHORT_CUTS =
      Set.of("org.gradus.rule.plan.NumberNode.number", "org.gradus.rule.plan.TruthNode.answer");

  /** A family and a method that forgets one of its members, to show that it is found. */
  sealed interface Family {
    record One() implements Family {}

    record Two() implements Family {}

    record Three() implements Family {}

    static int forgets(Object member) {
      return member instanceof One ? 1 : member instanceof Two ? 2 : 0;
    }

    static boolean asksForOne(Object member) {
      return member instanceof One;
    }
  }

  @Test
  void noMethodGoesThroughTheMembersOfAFamilyOneByOne() {
    assertThat(chains(CLASSES).entrySet())
        .filteredOn(chains -> HELD.contains(chains.getKey()))
        .isEmpty();
  }

  @Test
  void aMethodThatDoesSoIsFound() {
    JavaClasses family = new ClassFileImporter().importClasses(Family.class);
    assertThat(chains(family).values())
        .singleElement()
        .satisfies(found -> assertThat(found).singleElement().asString().contains("forgets"));
  }

  @Test
  void aPackageWithoutSuchMethodsIsHeldToIt() {
    Set<String> without = new TreeSet<>();
    CLASSES.forEach(type -> without.add(type.getPackageName()));
    without.removeAll(chains(CLASSES).keySet());
    assertThat(HELD).as("add it to the list").containsAll(without);
  }

  /** The methods that ask for two or more members of one family, by package. */
  private static Map<String, List<String>> chains(JavaClasses classes) {
    Map<String, List<String>> chains = new TreeMap<>();
    for (JavaClass type : classes) {
      for (JavaCodeUnit method : type.getCodeUnits()) {
        members(method)
            .forEach(
                (family, members) -> {
                  if (members.size() > 1 && !SHORT_CUTS.contains(name(method))) {
                    chains
                        .computeIfAbsent(type.getPackageName(), name -> new ArrayList<>())
                        .add(name(method) + " asks for " + members + " of " + family);
                  }
                });
      }
    }
    return chains;
  }

  private static String name(JavaCodeUnit method) {
    return method.getOwner().getName() + "." + method.getName();
  }

  /** The members that a method asks for, by family. */
  private static Map<String, Set<String>> members(JavaCodeUnit method) {
    Map<String, Set<String>> members = new TreeMap<>();
    for (InstanceofCheck check : method.getInstanceofChecks()) {
      JavaClass asked = check.getRawType();
      Stream.concat(asked.getAllRawInterfaces().stream(), asked.getAllRawSuperclasses().stream())
          .filter(family -> family.getPackageName().startsWith("org.gradus"))
          .filter(family -> family.reflect().isSealed())
          .forEach(
              family ->
                  members
                      .computeIfAbsent(family.getSimpleName(), name -> new TreeSet<>())
                      .add(asked.getSimpleName()));
    }
    return members;
  }
}
