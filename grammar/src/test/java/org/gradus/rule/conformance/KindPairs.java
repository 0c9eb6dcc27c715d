package org.gradus.rule.conformance;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.stream.Stream;
import org.gradus.rule.conformance.Case.Ask;
import org.gradus.rule.conformance.Case.Expected;
import org.gradus.unit.Kind;

/**
 * Every kind with every other in every operation that takes two values. Which go together is told
 * in one line for each operation; everything else is an error.
 */
final class KindPairs {

  // The amounts differ, so that each text names its place by itself.
  private static final int LEFT = 7;
  private static final int RIGHT = 3;

  private KindPairs() {}

  static Stream<Case> all() {
    return Stream.of(Kind.values())
        .flatMap(left -> Stream.of(Kind.values()).flatMap(right -> pairs(left, right)));
  }

  private static Stream<Case> pairs(Kind left, Kind right) {
    String a = literal(LEFT, left);
    String b = literal(RIGHT, right);
    boolean same = left == right;
    boolean leftNumber = left == Kind.NUMBER;
    boolean rightNumber = right == Kind.NUMBER;
    String unit = right.base().symbol().isEmpty() ? "%" : right.base().symbol();
    return Stream.of(
            truth(a + " > " + b, same, "yes", "G204 at " + b),
            truth(a + " <= " + b, same, "no", "G204 at " + b),
            truth(a + " = " + b, same, "no", "G204 at " + b),
            truth(a + " between " + b + " and " + literal(8, left), same, "yes", "G204 at " + b),
            truth(a + " between " + literal(6, left) + " and " + b, same, "no", "G204 at " + b),
            value(a + " + " + b, same, literal(10, left), "G205 at " + b),
            value(a + " - " + b, same, literal(4, left), "G205 at " + b),
            value("lesser(" + a + ", " + b + ")", same, b, "G204 at " + b),
            value("greater(" + a + ", " + b + ")", same, a, "G204 at " + b),
            value("round(" + a + ", " + b + ")", same, literal(6, left), "G204 at " + b),
            value("if 1 < 2 then " + a + " else " + b, same, a, "G216 at " + b),
            value(
                a + " * " + b,
                leftNumber || rightNumber,
                literal(21, leftNumber ? right : left),
                "G206 at everything"),
            value(
                literal(6, left) + " / " + b,
                rightNumber || same,
                rightNumber ? literal(2, left) : "2",
                "G206 at everything"),
            value(a + " of " + b, leftNumber, literal(21, right), "G210 at " + a),
            value(
                a + " in " + unit,
                same,
                rightNumber ? "700" : Integer.toString(LEFT),
                "G209 at " + unit + last(a + " in " + unit, unit)),
            value("(" + a + ") as " + unit, leftNumber, converted(right), "G210 at " + a))
        .map(made -> made.apply(left, right));
  }

  // The characters of a unit may also stand in other words before it.
  private static String last(String text, String unit) {
    int count = Wording.occurrences(text, unit);
    return count > 1 ? " [" + count + "]" : "";
  }

  private static String converted(Kind right) {
    return right == Kind.NUMBER ? LEFT + " %" : literal(LEFT, right);
  }

  private static String literal(int amount, Kind kind) {
    String unit = kind.base().symbol();
    return unit.isEmpty() ? Integer.toString(amount) : amount + " " + unit;
  }

  private static BiFunction<Kind, Kind, Case> truth(
      String text, boolean goes, String answer, String error) {
    return made(Ask.CONDITION, text, goes, answer, error);
  }

  private static BiFunction<Kind, Kind, Case> value(
      String text, boolean goes, String answer, String error) {
    return made(Ask.VALUE, text, goes, answer, error);
  }

  private static BiFunction<Kind, Kind, Case> made(
      Ask ask, String text, boolean goes, String answer, String error) {
    Expected expected =
        new Expected(
            Optional.of(answer).filter(is -> goes),
            Optional.empty(),
            Map.of(),
            goes ? List.of() : List.of(error),
            Optional.empty());
    return (left, right) ->
        new Case(
            "kinds that do not mix",
            left.words() + " with " + right.words() + ": " + text,
            ask,
            text,
            Map.of(),
            Map.of(),
            Map.of(),
            expected,
            "");
  }
}
