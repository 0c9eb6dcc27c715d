package org.gradus.rule.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.rule.check.Function;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.syntax.Action;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What LANGUAGE.md shows is what happens, and it leaves nothing out. */
class LanguagePageTest {

  private static final Page PAGE = Page.read(Path.of("LANGUAGE.md"));
  private static final Map<String, Symbol> NAMES = Names.of(PAGE.of("names").get(0).text());

  private static Stream<Page.Block> examples() {
    return PAGE.of("rule", "value").stream();
  }

  @ParameterizedTest
  @MethodSource("examples")
  void anExampleComesToWhatIsShown(Page.Block block) {
    Example example = new Example(block, NAMES);
    List<String> answers = example.answers();
    if (block.error().isPresent()) {
      assertThat(example.errors()).isEqualTo(block.error().get());
    } else {
      assertThat(example.errors()).isEmpty();
      assertThat(answers).isEqualTo(example.expected).isNotEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Code.class)
  void everyCodeHasItsSectionWithAnExampleThatProvokesIt(Code code) {
    assertThat(PAGE.lines()).contains("### " + code);
    assertThat(PAGE.blocks())
        .filteredOn(block -> block.section().equals(code.name()))
        .anySatisfy(block -> assertThat(block.error().orElse("")).contains(code.name()));
  }

  @ParameterizedTest
  @EnumSource(Function.class)
  void everyFunctionHasAnExampleThatWorksAndOneThatDoesNot(Function function) {
    String call = function.word() + "(";
    assertThat(PAGE.lines()).anyMatch(line -> line.startsWith("#### " + function.example()));
    assertThat(PAGE.blocks())
        .filteredOn(block -> block.text().contains(call))
        .anyMatch(block -> block.error().isEmpty())
        .anyMatch(block -> block.error().isPresent());
  }

  @ParameterizedTest
  @EnumSource(Kind.class)
  void everyKindHasItsRow(Kind kind) {
    assertThat(PAGE.lines()).anyMatch(line -> line.startsWith("| `" + kind.id() + "` | "));
  }

  // | `mph` | speed | 60 mph = 1609.344 m/min |
  @ParameterizedTest
  @EnumSource(Unit.class)
  void everyUnitHasItsRowWithItsFactor(Unit unit) {
    if (unit == Unit.ONE) {
      return;
    }
    String row =
        PAGE.lines().stream()
            .filter(line -> line.startsWith("| `" + unit.symbol() + "` | "))
            .findFirst()
            .orElseThrow(() -> new AssertionError("no row for " + unit.symbol()));
    String[] cells = row.split("\\s*\\|\\s*", -1);
    assertThat(cells[2]).isEqualTo(unit.kind().words());
    if (cells[3].contains("=")) {
      Quantity left = Names.quantity(cells[3].split(" = ", 2)[0]);
      Quantity right = Names.quantity(cells[3].split(" = ", 2)[1]);
      assertThat(left.isSameAs(right)).as(row).isTrue();
      assertThat(List.of(left.unit(), right.unit())).contains(unit);
    } else {
      assertThat(unit).isEqualTo(unit.kind().base());
    }
  }

  @Test
  void theTruthTablesAreThoseOfTheLanguage() {
    List<String> rows =
        PAGE.lines().stream().filter(line -> line.matches("\\| (yes|no|unknown) \\|.*")).toList();
    assertThat(rows).hasSize(9);
    for (String row : rows) {
      String[] cells = row.substring(2).split("\\s*\\|\\s*", -1);
      assertThat(truth("one and two", cells[0], cells[1])).as(row).isEqualTo(cells[2]);
      assertThat(truth("one or two", cells[0], cells[1])).as(row).isEqualTo(cells[3]);
      assertThat(truth("not one", cells[0], cells[1])).as(row).isEqualTo(cells[4]);
    }
  }

  private static String truth(String text, String one, String two) {
    String given = "given one = " + given(one) + "; two = " + given(two) + "\n";
    String names = "one = yes; two = yes";
    Page.Block block = new Page.Block("value", 1, names, given + text, java.util.Optional.empty());
    Map<String, Symbol> known = new java.util.HashMap<>(NAMES);
    known.putAll(Given.with(List.of("one = yes", "two = yes"), NAMES));
    String answer = new Example(block, known).answers().get(0).substring(2);
    return answer.startsWith("unknown") ? "unknown" : answer;
  }

  private static String given(String truth) {
    return truth.equals("unknown") ? "unknown: never taken, now" : truth;
  }

  @Test
  void everyActionWordIsExplained() {
    for (Action.Kind kind : Action.Kind.values()) {
      assertThat(PAGE.lines()).anyMatch(line -> line.startsWith("| `" + kind.word()));
    }
  }

  @Test
  void everyReasonForAnUnknownIsListed() {
    Arrays.stream(org.gradus.rule.answer.Gap.Cause.values())
        .forEach(
            cause ->
                assertThat(PAGE.lines())
                    .as(cause.name().toLowerCase(Locale.ROOT))
                    .anyMatch(line -> line.startsWith("| " + cause.words() + " |")));
  }
}
