package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.Suggestion;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Signal;
import org.gradus.session.Reading.Measured;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/** Refuses impossible readings: a wrong unit, a value no person has, a word that is not offered. */
final class ReadingValidator {

  private final Protocol protocol;

  ReadingValidator(Protocol protocol) {
    this.protocol = protocol;
  }

  /** Checks readings, each by itself. */
  void check(List<Reading> readings) {
    readings.forEach(reading -> check(bare(reading)));
  }

  /** Checks readings that were taken at one moment against each other; a later one stands. */
  void checkTogether(List<Reading> before, List<Reading> now) {
    for (Signal signal : protocol.instruments().ordered()) {
      String upper = signal.below().orElseThrow();
      for (Reading reading : now) {
        if (reading.subject().equals(signal.name()) || reading.subject().equals(upper)) {
          checkOrder(signal.name(), upper, place(reading), before, now);
        }
      }
    }
  }

  private static void checkOrder(
      String lower, String upper, String place, List<Reading> before, List<Reading> now) {
    Optional<Quantity> low = last(lower, place, now).or(() -> last(lower, place, before));
    Optional<Quantity> high = last(upper, place, now).or(() -> last(upper, place, before));
    if (low.isPresent() && high.isPresent() && low.get().base() >= high.get().base()) {
      throw new ReadingRefused(
          Code.G505,
          new FileText(lower),
          low.get(),
          Message.of(SessionMessage.VALUE_OF, new FileText(upper), high.get()));
    }
  }

  // Of several at one moment the last one stands.
  private static Optional<Quantity> last(String signal, String place, List<Reading> readings) {
    Optional<Quantity> last = Optional.empty();
    for (Reading reading : readings) {
      boolean same = reading.subject().equals(signal) && place(reading).equals(place);
      if (same && bare(reading) instanceof Measured measured) {
        last = Optional.of(measured.value());
      }
    }
    return last;
  }

  // Pressures of different postures have nothing to do with each other.
  private static String place(Reading reading) {
    return reading instanceof Reading.Baseline baseline ? baseline.posture().word() + "." : "";
  }

  private static Reading bare(Reading reading) {
    return reading instanceof Reading.Baseline baseline ? baseline.reading() : reading;
  }

  private void check(Reading reading) {
    String subject = reading.subject();
    Signal signal = protocol.instruments().signals().get(subject);
    Question question = protocol.instruments().questions().get(subject);
    Optional<Attribute> attribute =
        Attribute.named(subject).filter(a -> a.type().equals(Type.CONDITION));
    if (signal != null) {
      step(reading);
      fits(reading, signal.type(), Optional.empty());
      // The scale is narrower than the signal, and it is what the tester looks at.
      scale(reading);
      fits(reading, signal.type(), signal.range());
    } else if (question != null) {
      step(reading);
      fits(reading, question.type(), question.range());
      offered(reading, question);
    } else if (attribute.isPresent() || subject.equals(Instruments.CLEARED_AFTER_STOP)) {
      fits(reading, Type.CONDITION, Optional.empty());
    } else {
      throw unknown(reading);
    }
  }

  // A reading is meant for a signal, an answer for a question; a slip of the name is looked for in
  // both.
  private ReadingRefused unknown(Reading reading) {
    Set<String> signals = protocol.instruments().signals().keySet();
    Set<String> questions = protocol.instruments().questions().keySet();
    Message otherwise =
        reading instanceof Reading.Answered
            ? Message.of(SessionMessage.ASKS, List.copyOf(questions))
            : Message.of(SessionMessage.MEASURES, List.copyOf(signals));
    List<String> known = Stream.concat(signals.stream(), questions.stream()).toList();
    return new ReadingRefused(
        Code.G506,
        reading.subject(),
        reading.message(),
        Suggestion.help(reading.subject(), known, otherwise));
  }

  private void fits(Reading reading, Type type, Optional<QuantityRange> range) {
    boolean isOfItsType =
        reading.match(
            measured -> fits(measured, type, range),
            pressure -> false,
            chosen -> fits(chosen, type),
            answered -> type.equals(Type.CONDITION),
            baseline -> false);
    if (!isOfItsType) {
      throw new ReadingRefused(
          Code.G508,
          new FileText(reading.subject()),
          reading.message(),
          type.equals(Type.CONDITION)
              ? SessionMessage.TAKES_YES_OR_NO
              : Message.of(SessionMessage.TAKES, type.phrase()));
    }
  }

  private static boolean fits(Measured measured, Type type, Optional<QuantityRange> range) {
    if (!(type instanceof Type.Measure wanted)) {
      return false;
    }
    if (measured.value().kind() != wanted.kind()) {
      String unit = wanted.kind().base().symbol();
      throw new ReadingRefused(
          Code.G501,
          new FileText(measured.subject()),
          measured.value(),
          unit.isEmpty() ? SessionMessage.PLAIN_NUMBERS : unit);
    }
    range.ifPresent(limits -> inside(measured, limits));
    return true;
  }

  private static boolean fits(Reading.Chosen chosen, Type type) {
    if (!(type instanceof Type.Choice wanted)) {
      return false;
    }
    if (!wanted.options().contains(chosen.word())) {
      throw new ReadingRefused(
          Code.G508,
          new FileText(chosen.subject()),
          chosen.word(),
          Message.of(
              SessionMessage.CHOOSE_ONE, wanted.options().stream().map(FileText::new).toList()));
    }
    return true;
  }

  // A step below zero would make every decision that depends on the reading look firm.
  private static void step(Reading reading) {
    if (reading instanceof Measured measured && measured.step().isPresent()) {
      Quantity step = measured.step().get();
      if (step.kind() != measured.value().kind()) {
        throw new ReadingRefused(
            Code.G501, stepOf(reading), step, measured.value().unit().symbol());
      } else if (step.amount() < 0) {
        throw new ReadingRefused(Code.G502, stepOf(reading), step, SessionMessage.ZERO_OR_MORE);
      }
    }
  }

  private static Message stepOf(Reading reading) {
    return Message.of(SessionMessage.STEP_OF, new FileText(reading.subject()));
  }

  private static void offered(Reading reading, Question question) {
    boolean chosen =
        question.options().isEmpty()
            || (reading instanceof Measured measured
                && question.options().stream()
                    .anyMatch(option -> option.value().isSameAs(measured.value())));
    if (!chosen) {
      throw new ReadingRefused(
          Code.G508,
          new FileText(reading.subject()),
          reading.message(),
          Message.of(
              SessionMessage.CHOOSE, question.choice().<Object>map(choice -> choice).orElse("")));
    }
  }

  private static void inside(Measured measured, QuantityRange limits) {
    if (!limits.holds(measured.value().base())) {
      throw new ReadingRefused(
          Code.G502,
          new FileText(measured.subject()),
          measured.value(),
          Message.of(SessionMessage.RANGE, limits.low(), limits.high()));
    }
  }

  private void scale(Reading reading) {
    Optional<String> wanted =
        protocol.schedule().lineOf(reading.subject()).flatMap(MeasureLine::scale);
    Optional<String> given =
        reading instanceof Measured measured ? measured.scale() : Optional.empty();
    if (!wanted.equals(given)) {
      throw new ReadingRefused(
          Code.G508,
          new FileText(reading.subject()),
          given
              .map(scale -> Message.of(SessionMessage.GIVEN_ON_SCALE, scale))
              .orElse(Message.of(SessionMessage.GIVEN_WITHOUT_SCALE)),
          wanted
              .map(scale -> Message.of(SessionMessage.GIVE_ON_SCALE, scale))
              .orElse(Message.of(SessionMessage.GIVE_WITHOUT_SCALE)));
    }
    Scale scale = wanted.map(protocol.instruments().scales()::get).orElse(null);
    if (scale != null
        && reading instanceof Measured measured
        && !scale.has(measured.value().base())) {
      throw new ReadingRefused(
          Code.G502,
          new FileText(reading.subject()),
          measured.value(),
          Message.of(
              SessionMessage.STEP_OF_SCALE,
              scale.name(),
              Quantity.plain(scale.low()),
              Quantity.plain(scale.high())));
    }
  }

  /** A reading that has been checked, as the state keeps it. */
  StoredReading taken(Reading reading, Duration time) {
    return reading.match(
        measured -> new StoredReading(measured.value().base(), step(measured) / 2, time),
        pressure -> {
          throw new IllegalStateException("a cuff reading is placed as its parts");
        },
        chosen -> new StoredReading(option(chosen), 0, time),
        answered -> new StoredReading(answered.yes() ? 1 : 0, 0, time),
        baseline -> taken(baseline.reading(), time));
  }

  private double step(Measured measured) {
    Optional<Quantity> usual =
        Optional.ofNullable(protocol.instruments().signals().get(measured.subject()))
            .flatMap(Signal::step);
    return measured.step().or(() -> usual).map(Quantity::base).orElse(0.0);
  }

  private int option(Reading.Chosen chosen) {
    Signal signal = protocol.instruments().signals().get(chosen.subject());
    Type type =
        signal != null ? signal.type() : protocol.instruments().question(chosen.subject()).type();
    return ((Type.Choice) type).options().indexOf(chosen.word());
  }
}
