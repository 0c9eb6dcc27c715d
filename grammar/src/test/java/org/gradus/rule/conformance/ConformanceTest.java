package org.gradus.rule.conformance;

import static java.util.stream.Collectors.groupingBy;
import static java.util.stream.Collectors.toList;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.gradus.rule.random.OneReading;
import org.junit.jupiter.api.DynamicContainer;
import org.junit.jupiter.api.DynamicNode;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The cases in the YAML files of this package, each a test of its own. */
class ConformanceTest {

  private static final List<Case> CASES = CaseFile.all();

  @TestFactory
  Stream<DynamicNode> theLanguageAnswersAsExpected() {
    Map<String, List<Case>> groups =
        CASES.stream().collect(groupingBy(Case::group, LinkedHashMap::new, toList()));
    return groups.entrySet().stream()
        .map(
            group ->
                DynamicContainer.dynamicContainer(
                    group.getKey(),
                    group.getValue().stream()
                        .map(
                            given ->
                                DynamicTest.dynamicTest(
                                    given.id() + ": " + given.text(), () -> Trial.run(given)))));
  }

  @TestFactory
  Stream<DynamicNode> kindsDoNotMix() {
    return KindPairs.all()
        .map(given -> DynamicTest.dynamicTest(given.id(), () -> Trial.run(given)));
  }

  @Test
  void thereAreHundredsOfCases() {
    assertThat(CASES).hasSizeGreaterThan(450);
  }

  @Test
  void everyPublishedCaseNamesItsSource() {
    assertThat(CASES)
        .filteredOn(given -> given.group().startsWith("published"))
        .isNotEmpty()
        .allSatisfy(given -> assertThat(given.source()).as(given.toString()).isNotBlank());
  }

  @Test
  void everyReadableTextHasOneReadingThatTheParserSeesAtOnce() {
    assertThat(CASES)
        .filteredOn(given -> !given.isUnreadable())
        .allSatisfy(
            given ->
                assertThat(OneReading.complaints(given.text(), parser -> Entry.read(given, parser)))
                    .as(given.toString())
                    .isEmpty());
  }
}
