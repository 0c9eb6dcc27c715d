package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Everything in a file that is a rule or carries a figure names its source on the same item. */
class SourcesTest {

  @TestFactory
  List<DynamicTest> everyItemNamesItsSource() {
    return Bundled.files().stream()
        .map(
            file ->
                DynamicTest.dynamicTest(
                    file.name(),
                    () ->
                        assertThat(SourcedItems.of(file).all())
                            .as("items of %s without a source", file.name())
                            .filteredOn(item -> item.sources().isEmpty())
                            .isEmpty()))
        .toList();
  }
}
