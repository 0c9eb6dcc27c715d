package org.gradus.capacity;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.function.Function;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.knowledge.Given;
import org.gradus.knowledge.NormTable;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.rule.answer.Truth;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;
import org.gradus.words.Name;

/** Where a value stands in a table of reference values. */
public sealed interface Standing {

  /** The table, with edition and source. */
  NormTable table();

  /** Where it stands, to be said in any language. */
  Message message();

  /** Where it stands, in English. */
  default String words() {
    return message().toString();
  }

  /** What one of these functions makes of it, whichever it is. */
  <R> R match(
      Function<AmongPercentiles, ? extends R> percentiles,
      Function<InClass, ? extends R> inClass,
      Function<Nowhere, ? extends R> nowhere);

  /**
   * Where a value stands in a table by itself, without a test.
   *
   * <pre>{@code
   * Person woman = Person.builder().age(46).sex(FEMALE).build();
   * Standing.of(library.norm(id), woman, Quantity.of(31, Unit.ML_PER_KG_PER_MINUTE)).words();
   * }</pre>
   *
   * <p>On which ergometer and in which test the value was found, the caller knows: {@link
   * NormTable#ergometer} and {@link NormTable#protocol} say for which the table is.
   *
   * @return its place, or {@link Nowhere} with the reason: the table is not for this person, or has
   *     no figures for this age
   * @throws ReadingRefused when the value is of another kind than the table
   */
  static Standing of(NormTable table, Person person, Quantity value) {
    requireNonNull(person, "person");
    if (value.kind() != table.unit().kind()) {
      throw new ReadingRefused(
          Code.G508,
          table.of(),
          value.toString(),
          "the table "
              + table.id()
              + " is in "
              + table.unit().symbol()
              + ", "
              + table.unit().kind().phrase());
    }
    Given given = person.given();
    return table.when().test(given) == Truth.TRUE
        ? NormPlace.of(table, value, person.value(Attribute.AGE), Optional.empty())
        : new Nowhere(
            table,
            table.when().against(given).stream()
                .reduce((one, more) -> Message.of(Joined.SEMICOLON, one, more))
                .orElseThrow());
  }

  /**
   * Among the percentiles of a table.
   *
   * @param table the table
   * @param value what is compared
   * @param at the place of the value
   * @param low the place of the lower end of its 95 % interval, if it has one
   * @param high the place of the upper end
   */
  record AmongPercentiles(
      NormTable table, Quantity value, Place at, Optional<Place> low, Optional<Place> high)
      implements Standing {
    public AmongPercentiles {
      requireNonNull(at, "at");
      requireNonNull(high, "high");
      requireNonNull(low, "low");
      requireNonNull(table, "table");
      requireNonNull(value, "value");
    }

    @Override
    public <R> R match(
        Function<AmongPercentiles, ? extends R> percentiles,
        Function<InClass, ? extends R> inClass,
        Function<Nowhere, ? extends R> nowhere) {
      return percentiles.apply(this);
    }

    @Override
    public Message message() {
      return low.isPresent() && high.isPresent() && !low.equals(high)
          ? Message.of(
              ResultMessage.WITH_INTERVAL, at.message(), low.get().message(), high.get().message())
          : at.message();
    }
  }

  /**
   * A place among printed percentiles. Nothing is worked out between two of them.
   *
   * @param below the highest printed percentile that is reached, if any is
   * @param above the lowest that is not reached, if any is not
   * @param exactly whether the value is just that of {@code below}
   */
  record Place(Optional<Integer> below, Optional<Integer> above, boolean exactly) {
    public Place {
      requireNonNull(above, "above");
      requireNonNull(below, "below");
    }

    /** The place, to be said in any language. */
    public Message message() {
      if (exactly) {
        return Message.of(ResultMessage.AT_PERCENTILE, below.orElseThrow());
      } else if (below.isEmpty()) {
        return Message.of(ResultMessage.BELOW_PERCENTILE, above.orElseThrow());
      }
      return above
          .map(next -> Message.of(ResultMessage.BETWEEN_PERCENTILES, below.orElseThrow(), next))
          .orElseGet(() -> Message.of(ResultMessage.ABOVE_PERCENTILE, below.orElseThrow()));
    }

    @Override
    public String toString() {
      return message().toString();
    }
  }

  /**
   * In a class of a table.
   *
   * @param table the table
   * @param value what is compared
   * @param name the class, as in {@code class 2 of 7} where the table numbers its classes
   * @param remark what had to be decided because of a gap or a tie in the table, if anything had
   */
  record InClass(NormTable table, Quantity value, String name, Optional<Message> remark)
      implements Standing {
    public InClass {
      requireNonNull(name, "name");
      requireNonNull(remark, "remark");
      requireNonNull(table, "table");
      requireNonNull(value, "value");
    }

    @Override
    public <R> R match(
        Function<AmongPercentiles, ? extends R> percentiles,
        Function<InClass, ? extends R> inClass,
        Function<Nowhere, ? extends R> nowhere) {
      return inClass.apply(this);
    }

    @Override
    public Message message() {
      FileText found = new FileText(name);
      Message named =
          isNumbered()
              ? Message.of(best(), found, new Name(table.of()))
              : Message.of(Joined.ALONE, found);
      return remark.map(more -> Message.of(Joined.BRACKETS, named, more)).orElse(named);
    }

    private boolean isNumbered() {
      return table.rows() instanceof NormTable.Classes classes && classes.numbered();
    }

    private ResultMessage best() {
      return table.higherIsBetter()
          ? ResultMessage.IN_CLASS_HIGHEST
          : ResultMessage.IN_CLASS_LOWEST;
    }
  }

  /**
   * Nowhere: the table is for this person but does not say.
   *
   * @param table the table
   * @param reason why not
   */
  record Nowhere(NormTable table, Message reason) implements Standing {
    public Nowhere {
      requireNonNull(reason, "reason");
      requireNonNull(table, "table");
    }

    @Override
    public <R> R match(
        Function<AmongPercentiles, ? extends R> percentiles,
        Function<InClass, ? extends R> inClass,
        Function<Nowhere, ? extends R> nowhere) {
      return nowhere.apply(this);
    }

    @Override
    public Message message() {
      return reason;
    }
  }
}
