package org.gradus.rule.bounds;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Term;

/** Evaluates definitions: goes through their alternatives, narrowing the box on the way down. */
final class TermBounds {

  private TermBounds() {}

  static Interval number(Term term, Survey user) {
    return (Interval) settled(term, user, TermBounds::numberAnew);
  }

  static Outcomes truth(Term term, Survey user) {
    return (Outcomes) settled(term, user, TermBounds::truthAnew);
  }

  // What is said for want of effort says nothing of the definition, and is not kept.
  private static Object settled(Term term, Survey user, BiFunction<Term, Survey, Object> anew) {
    Settled settled = user.box().settled();
    if (!settled.holds(term)) {
      return anew.apply(term, user);
    }
    Optional<Object> known = settled.found(term);
    if (known.isPresent()) {
      return known.get();
    }
    Object found = anew.apply(term, user);
    if (!user.wasSpent()) {
      settled.find(term, found);
    }
    return found;
  }

  private static Interval numberAnew(Term term, Survey user) {
    List<Interval> ways =
        ways(term, user, value -> value.number(value.checked().root()), Interval.NOTHING);
    Interval all = ways.get(0);
    for (int i = 1; i < ways.size(); i++) {
      all = all.join(ways.get(i));
    }
    return all;
  }

  private static Outcomes truthAnew(Term term, Survey user) {
    Outcomes all = Outcomes.NOTHING;
    for (Outcomes way :
        ways(term, user, value -> value.truth(value.checked().root()), Outcomes.UNKNOWN)) {
      all = all.join(way);
    }
    return all;
  }

  // Everything the definition could come to, alternative by alternative; never nothing.
  private static <T> List<T> ways(
      Term term, Survey user, Function<Survey, T> evaluated, T unknown) {
    List<T> ways = new ArrayList<>();
    Survey left = user;
    for (Term.Alternative alternative : term.alternatives()) {
      Outcomes applies = applies(alternative, left);
      if (applies.canHold()) {
        // Where it surely applies there is nothing to leave out.
        Survey inside = applies.alwaysHolds() ? left : assumed(alternative, left);
        ways.add(alternative.value().map(inside::of).map(evaluated).orElse(unknown));
      }
      if (applies.canBeUnknown()) {
        ways.add(unknown);
      }
      if (applies.alwaysHolds()) {
        return ways;
      }
      left = applies.alwaysFails() ? left : excluded(alternative, left);
    }
    ways.add(unknown); // past the last alternative: none applied
    return ways;
  }

  private static Outcomes applies(Term.Alternative alternative, Survey survey) {
    Outcomes all = Outcomes.HOLDS;
    for (Checked when : alternative.when()) {
      all = all.and(survey.of(when).truth(when.root()));
    }
    return all;
  }

  private static Survey assumed(Term.Alternative alternative, Survey survey) {
    Survey narrowed = survey;
    for (Checked when : alternative.when()) {
      narrowed = narrowed.of(when).assuming(when.root(), true);
    }
    return narrowed;
  }

  // With one condition its failing is known; with several only that not all hold.
  private static Survey excluded(Term.Alternative alternative, Survey survey) {
    if (alternative.when().size() != 1) {
      return survey;
    }
    Checked when = alternative.when().get(0);
    return survey.of(when).assuming(when.root(), false);
  }
}
