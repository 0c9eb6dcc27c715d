package org.gradus.capacity;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.protocol.EstimateLine.PublishedError;
import org.gradus.protocol.Suspicion;
import org.gradus.unit.Quantity;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/** One way to work out the aerobic capacity, as it came out or did not. */
public sealed interface Estimate {

  /** Its id in the protocol. */
  String id();

  /** Where the method comes from. */
  Citation source();

  /**
   * Whether it is only a second look: it is shown beside the headline, never in its place, and the
   * two are never averaged. A finding says so where both disagree.
   */
  boolean secondLook();

  /** Why it gives no capacity; empty when it does. */
  List<Message> lacks();

  /** Why it gives no capacity, in English; empty when it does. */
  default List<String> reasons() {
    return lacks().stream().map(Message::toString).toList();
  }

  /**
   * What comes of it, by how it came out.
   *
   * @param <R> what comes of it
   */
  <R> R match(
      Function<Available, ? extends R> available,
      Function<Implausible, ? extends R> implausible,
      Function<Unavailable, ? extends R> unavailable);

  /**
   * An estimate that could be made.
   *
   * @param id its id in the protocol
   * @param source where the method comes from
   * @param assumes what it takes for granted, in a sentence; or empty
   * @param secondLook whether it is only a second look
   * @param vo2max the capacity in mL/kg/min, unrounded
   * @param interval where the true capacity lies in 95 of 100 such tests, where anything is known
   *     of the errors
   * @param calculation the formula with its numbers filled in
   * @param ingredients what it rests on
   * @param publishedError the error a publication found for the method, if the protocol names one
   * @param warnings what to keep in mind with it
   */
  record Available(
      String id,
      Citation source,
      String assumes,
      boolean secondLook,
      Quantity vo2max,
      Optional<Interval> interval,
      String calculation,
      List<Ingredient> ingredients,
      Optional<PublishedError> publishedError,
      List<Message> warnings)
      implements Estimate {
    public Available {
      requireNonNull(assumes, "assumes");
      requireNonNull(calculation, "calculation");
      requireNonNull(id, "id");
      requireNonNull(ingredients, "ingredients");
      requireNonNull(interval, "interval");
      requireNonNull(publishedError, "publishedError");
      requireNonNull(source, "source");
      requireNonNull(vo2max, "vo2max");
      requireNonNull(warnings, "warnings");
      ingredients = List.copyOf(ingredients);
      warnings = List.copyOf(warnings);
    }

    /** What to keep in mind with it, in English. */
    public List<String> cautions() {
      return warnings.stream().map(Message::toString).toList();
    }

    @Override
    public List<Message> lacks() {
      return List.of();
    }

    @Override
    public <R> R match(
        Function<Available, ? extends R> available,
        Function<Implausible, ? extends R> implausible,
        Function<Unavailable, ? extends R> unavailable) {
      return available.apply(this);
    }
  }

  /**
   * An estimate that gives a capacity no living person has. It is shown with its value, so that a
   * mistake can be found, but it is never the result of a test.
   *
   * @param id its id in the protocol
   * @param source where the method comes from
   * @param secondLook whether it is only a second look
   * @param vo2max what its formula gives, in mL/kg/min, unrounded
   * @param plausible the range it lies outside of
   * @param calculation the formula with its numbers filled in
   */
  record Implausible(
      String id,
      Citation source,
      boolean secondLook,
      Quantity vo2max,
      PlausibleRange plausible,
      String calculation)
      implements Estimate {

    private static final Suspicion OF_ANYTHING =
        new Suspicion("aerobic capacity", Suspicion.Look.SUM);

    public Implausible {
      requireNonNull(calculation, "calculation");
      requireNonNull(id, "id");
      requireNonNull(plausible, "plausible");
      requireNonNull(source, "source");
      requireNonNull(vo2max, "vo2max");
    }

    @Override
    public List<Message> lacks() {
      return List.of(plausible.against(vo2max.rounded(1)));
    }

    @Override
    public <R> R match(
        Function<Available, ? extends R> available,
        Function<Implausible, ? extends R> implausible,
        Function<Unavailable, ? extends R> unavailable) {
      return implausible.apply(this);
    }

    /** What a tester has to be told of it. */
    Finding finding() {
      return new Finding(
          "implausible-" + id.replace('_', '-'),
          OF_ANYTHING,
          List.of(),
          Message.of(Joined.SENTENCE, plausible.against(vo2max.rounded(1))),
          calculation,
          plausible.source());
    }
  }

  /**
   * An estimate that could not be made.
   *
   * @param id its id in the protocol
   * @param source where the method comes from
   * @param secondLook whether it is only a second look
   * @param lacks why not
   */
  record Unavailable(String id, Citation source, boolean secondLook, List<Message> lacks)
      implements Estimate {
    public Unavailable {
      requireNonNull(id, "id");
      requireNonNull(lacks, "lacks");
      requireNonNull(source, "source");
      lacks = List.copyOf(lacks);
    }

    @Override
    public <R> R match(
        Function<Available, ? extends R> available,
        Function<Implausible, ? extends R> implausible,
        Function<Unavailable, ? extends R> unavailable) {
      return unavailable.apply(this);
    }
  }

  /**
   * Something an estimate rests on.
   *
   * @param name a stage, a definition or a figure
   * @param label what people call it
   * @param shown its value here
   * @param method how it came about
   * @param source where the figure or equation comes from
   * @param spread how much it varies between people, where its file says so: a standard deviation
   */
  record Ingredient(
      String name,
      Message label,
      Message shown,
      Message method,
      Citation source,
      Optional<Quantity> spread) {
    public Ingredient {
      requireNonNull(label, "label");
      requireNonNull(method, "method");
      requireNonNull(name, "name");
      requireNonNull(shown, "shown");
      requireNonNull(source, "source");
      requireNonNull(spread, "spread");
    }

    /** Its value here, in English. */
    public String value() {
      return shown.toString();
    }

    /** How it came about, in English. */
    public String how() {
      return method.toString();
    }
  }
}
