package org.gradus.cases;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Result;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.Times;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;

/** Compares what came out with what a case says. */
final class AnswerComparison {

  private static final String NONE = "none";

  // A figure of which more is said than anybody compares is hard to read.
  private static final int SHOWN_DECIMALS = 4;

  private final Case told;
  private final String where;
  private final List<Failure> failures;

  AnswerComparison(Case told, String where, List<Failure> failures) {
    this.told = told;
    this.where = where;
    this.failures = failures;
  }

  void fails(String what, String expected, String found) {
    failures.add(new Failure(told.id(), where, what, expected, found));
  }

  private void same(String what, Optional<String> expected, String found) {
    expected
        .filter(wanted -> !wanted.equals(found))
        .ifPresent(wanted -> fails(what, wanted, found));
  }

  private void sameNames(String what, Optional<List<String>> expected, List<String> found) {
    List<String> sorted = found.stream().distinct().sorted().toList();
    same(
        what,
        expected.map(names -> String.join(", ", names.stream().sorted().toList())),
        String.join(", ", sorted));
  }

  /** The word by which a case calls a verdict. */
  static String word(Verdict verdict) {
    return verdict.kind().name().toLowerCase(Locale.ROOT);
  }

  /** Compares the answer to a step. */
  void answer(CaseStep.Answer expected, Decision found, Function<CaseTime, Duration> times) {
    Verdict verdict = found.verdict();
    String shown = found.toString();
    expected
        .then()
        .filter(word -> !word.equals(word(verdict)))
        .ifPresent(word -> fails("then", word, shown));
    same("rule", expected.rule(), found.because().map(Because::rule).orElse(NONE));
    sameNames("rules", expected.rules(), rules(found));
    same("to", expected.to(), verdict.begins().orElse(NONE));
    same(
        "until",
        expected.until().map(times).map(Times::clock),
        until(verdict).map(Times::clock).orElse(NONE));
    sameNames(
        "offers",
        expected.offers(),
        found.offers().stream().map(offer -> word(offer.verdict())).toList());
    sameNames(
        "cautions", expected.cautions(), found.cautions().stream().map(Because::rule).toList());
    sameNames(
        "unchecked",
        expected.unchecked(),
        found.unchecked().stream().map(Decision.Unchecked::rule).toList());
    asks(expected.asks(), verdict);
    same(
        "firm",
        expected.firm().map(firm -> firm ? "yes" : "no"),
        found.firmness().isFirm() ? "yes" : "no");
    expected.load().ifPresent(load -> load(load, loads(found)));
  }

  private static List<String> rules(Decision found) {
    List<Because> reasons =
        found.verdict() instanceof Verdict.Defer defer
            ? defer.reasons()
            : found.because().stream().toList();
    return reasons.stream().map(Because::rule).toList();
  }

  private static Optional<Duration> until(Verdict verdict) {
    if (verdict instanceof Verdict.Hold hold) {
      return Optional.of(hold.until());
    } else if (verdict instanceof Verdict.Continue goOn) {
      return Optional.of(goOn.until());
    }
    return verdict instanceof Verdict.Measure measure ? measure.until() : Optional.empty();
  }

  // A name stands for any time at which it can be settled; with a time, for that.
  private void asks(Optional<List<String>> expected, Verdict verdict) {
    List<Gap> gaps = verdict instanceof Verdict.Measure measure ? measure.gaps() : List.of();
    List<String> found = new ArrayList<>();
    for (Gap gap : gaps) {
      boolean plain =
          expected.filter(names -> names.contains(gap.subject())).isPresent()
              || !(gap.settle() instanceof Gap.Settle.At);
      found.add(
          plain
              ? gap.subject()
              : gap.subject() + " at " + Times.clock(((Gap.Settle.At) gap.settle()).time()));
    }
    sameNames("asks", expected, found);
  }

  private void load(Map<String, String> expected, List<Loading> found) {
    if (expected.isEmpty() && !found.isEmpty()) {
      fails("shows", NONE, Loading.line(found));
    }
    expected.forEach((name, text) -> load(name, text, found));
  }

  private void load(String name, String text, List<Loading> loads) {
    Optional<Loading> found = loads.stream().filter(load -> load.name().equals(name)).findFirst();
    boolean same =
        found.filter(load -> isSame(load.value(), CaseTeller.quantity(text))).isPresent();
    if (!same) {
      fails("shows " + name, text, Loading.line(loads));
    }
  }

  // As a person reads it: to three digits behind the point.
  private static boolean isSame(Quantity found, Quantity wanted) {
    return found.kind() == wanted.kind()
        && Math.abs(found.in(wanted.unit()) - wanted.amount()) < 0.0005;
  }

  private static List<Loading> loads(Decision found) {
    boolean goesOn = found.verdict() instanceof Verdict.Continue;
    return goesOn ? found.agenda().load() : found.verdict().loads();
  }

  /** Compares what came of the whole case. */
  void end(Outcome outcome) {
    Expected expected = told.expected();
    same("phase", expected.phase(), lower(outcome.phase()));
    same("ending", expected.ending(), outcome.ending().map(AnswerComparison::lower).orElse(NONE));
    if (expected.estimates().isEmpty()
        && expected.results().isEmpty()
        && expected.headline().isEmpty()) {
      return;
    }
    Capacity capacity = Capacity.of(outcome);
    same("headline", expected.headline(), capacity.headline().map(Estimate::id).orElse(NONE));
    expected.estimates().forEach((id, figure) -> estimate(id, figure, capacity));
    expected.results().forEach((id, figure) -> result(id, figure, capacity));
  }

  private static String lower(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT);
  }

  private void estimate(String id, Expected.Figure figure, Capacity capacity) {
    Optional<Estimate> found = capacity.estimate(id);
    String shown =
        found
            .map(
                estimate ->
                    estimate instanceof Estimate.Available available
                        ? available.vo2max().rounded(SHOWN_DECIMALS).toString()
                        : "none: " + String.join("; ", estimate.reasons()))
            .orElse("no such estimate");
    Optional<Quantity> value =
        found
            .filter(Estimate.Available.class::isInstance)
            .map(estimate -> ((Estimate.Available) estimate).vo2max());
    compare("estimate " + id, figure, found.isPresent(), value, shown);
  }

  private void result(String id, Expected.Figure figure, Capacity capacity) {
    Optional<Result> found = capacity.result(id);
    Optional<Quantity> value = found.filter(Result::isAvailable).flatMap(Result::value);
    String shown =
        found
            .map(
                result ->
                    value
                        .map(known -> known.rounded(SHOWN_DECIMALS).toString())
                        .orElse("none: " + String.join("; ", result.reasons())))
            .orElse("no such result");
    compare("result " + id, figure, found.isPresent(), value, shown);
  }

  private void compare(
      String what,
      Expected.Figure figure,
      boolean declared,
      Optional<Quantity> found,
      String shown) {
    boolean fits =
        figure.value().isEmpty()
            ? declared && found.isEmpty()
            : found.filter(value -> isWithin(value, figure)).isPresent();
    if (!fits) {
      String wanted =
          figure.value().map(value -> value + " within " + figure.within()).orElse(NONE)
              + (figure.source().isEmpty() ? "" : " (" + figure.source() + ")");
      fails(what, wanted, shown);
    }
  }

  private static boolean isWithin(Quantity found, Expected.Figure figure) {
    Quantity wanted = figure.value().orElseThrow();
    return found.kind() == wanted.kind()
        && Math.abs(found.in(wanted.unit()) - wanted.amount()) <= figure.within();
  }
}
