package org.gradus.rule.syntax;

import java.util.Optional;
import java.util.function.Function;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Expression.Name;

/** Which stages an estimate is made from. */
public sealed interface Selection {

  /** Where it stands. */
  Span span();

  /**
   * What comes of it, by which of them it is.
   *
   * @param <R> what comes of it
   */
  <R> R match(
      Function<FromEnd, ? extends R> fromEnd,
      Function<All, ? extends R> all,
      Function<One, ? extends R> one,
      Function<Moment, ? extends R> moment);

  /**
   * {@code last usable stage}, {@code first 2 stages}.
   *
   * @param span where it stands
   * @param last whether they are taken from the end of the test
   * @param count how many
   * @param term a condition the end of the stage must have fulfilled, if any
   */
  record FromEnd(Span span, boolean last, int count, Optional<Name> term) implements Selection {
    @Override
    public <R> R match(
        Function<FromEnd, ? extends R> fromEnd,
        Function<All, ? extends R> all,
        Function<One, ? extends R> one,
        Function<Moment, ? extends R> moment) {
      return fromEnd.apply(this);
    }
  }

  /**
   * {@code usable stages, at least 2}.
   *
   * @param span where it stands
   * @param term a condition the end of the stage must have fulfilled, if any
   * @param atLeast how many are needed
   */
  record All(Span span, Optional<Name> term, int atLeast) implements Selection {
    @Override
    public <R> R match(
        Function<FromEnd, ? extends R> fromEnd,
        Function<All, ? extends R> all,
        Function<One, ? extends R> one,
        Function<Moment, ? extends R> moment) {
      return all.apply(this);
    }
  }

  /**
   * {@code stage graded}.
   *
   * @param span where it stands
   * @param stage the id of the stage
   */
  record One(Span span, Name stage) implements Selection {
    @Override
    public <R> R match(
        Function<FromEnd, ? extends R> fromEnd,
        Function<All, ? extends R> all,
        Function<One, ? extends R> one,
        Function<Moment, ? extends R> moment) {
      return one.apply(this);
    }
  }

  /**
   * {@code finish} or {@code recovery}: no completed stage but a moment.
   *
   * @param span where it stands
   * @param name the moment
   */
  record Moment(Span span, Name name) implements Selection {
    @Override
    public <R> R match(
        Function<FromEnd, ? extends R> fromEnd,
        Function<All, ? extends R> all,
        Function<One, ? extends R> one,
        Function<Moment, ? extends R> moment) {
      return moment.apply(this);
    }
  }
}
