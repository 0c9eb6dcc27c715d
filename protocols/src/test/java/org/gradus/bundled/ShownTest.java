package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Times.seconds;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.library.Library;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Schedule;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Timing;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What a bundled protocol waits for or asks is in the agenda before it is needed. */
class ShownTest {

  private static final Library LIBRARY = Bundled.library();

  static Stream<Protocol> protocols() {
    return LIBRARY.protocols().stream().map(LIBRARY::protocol);
  }

  private static Session open(Protocol protocol) {
    double age = Math.max(protocol.eligibility().youngest(), 18);
    Person person =
        Person.builder()
            .age((int) age)
            .sex(Person.Sex.FEMALE)
            .mass(Quantity.of(62, Unit.KILOGRAM))
            .height(Quantity.of(170, Unit.CENTIMETRE))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    return Session.open(protocol, person);
  }

  private static Optional<Agenda> agenda(Decision decision) {
    return switch (decision.kind()) {
      case READY, CONTINUE, MEASURE -> Optional.of(decision.agenda());
      default -> Optional.empty();
    };
  }

  private static Set<String> signals(Agenda agenda) {
    Set<String> signals = new HashSet<>();
    agenda.items().forEach(item -> signals.addAll(item.names()));
    agenda.whenDone().ifPresent(end -> signals.addAll(end.names()));
    return signals;
  }

  @ParameterizedTest
  @MethodSource("protocols")
  void beforeTheTest(Protocol protocol) {
    Session session = open(protocol);
    Decision first = session.decide(Duration.ZERO);
    Agenda agenda = agenda(first).orElseThrow();
    List<String> asked = agenda.asks().stream().map(Agenda.Ask::name).toList();
    if (first.verdict() instanceof Verdict.Measure measure) {
      for (Gap gap : measure.gaps()) {
        assertThat(asked.contains(gap.subject()) || signals(agenda).contains(gap.subject()))
            .as("%s", gap)
            .isTrue();
      }
    }
    for (Question question : protocol.instruments().questions().values()) {
      assertThat(asked.contains(question.name()) || question.unless().isPresent())
          .as(question.name())
          .isTrue();
    }
    for (BaselineLine line : protocol.baselines()) {
      assertThat(signals(agenda))
          .containsAll(
              line.signals().stream().map(signal -> line.posture().word() + "." + signal).toList());
    }
    assertThat(agenda.questions()).isEqualTo(protocol.instruments().asked());
  }

  @ParameterizedTest
  @MethodSource("protocols")
  void inEachStageAndInRecovery(Protocol protocol) {
    Session session = open(protocol);
    answerAll(protocol, session);
    for (Stage stage : protocol.stages()) {
      Duration now = session.outcome().phase() == Phase.BEFORE ? Duration.ZERO : seconds(1);
      Session here = session.fork();
      here.override(now, new Verdict.Ready(stage.id(), List.of()), "to see this stage");
      Agenda agenda = agenda(here.decide(now)).orElseThrow();
      assertThat(agenda.questions()).isEqualTo(protocol.instruments().asked());
      assertThat(agenda.whenDone().isPresent()).as(stage.id()).isEqualTo(stage.untilDone());
      assertThat(signals(agenda)).as(stage.id()).containsAll(due(protocol.schedule(stage), stage));
      here.override(now, new Verdict.Finish(), "to see recovery");
      if (here.phase() == Phase.RECOVERY) {
        Agenda after = agenda(here.decide(now)).orElseThrow();
        assertThat(after.questions()).isEqualTo(protocol.instruments().asked());
        Set<String> seen = new HashSet<>();
        for (int minute = 0;
            minute < protocol.recovery().orElseThrow().atMost().toMinutes();
            minute++) {
          agenda(here.decide(now.plusMinutes(minute))).ifPresent(a -> seen.addAll(signals(a)));
        }
        protocol
            .recovery()
            .orElseThrow()
            .schedule()
            .lines()
            .forEach(line -> assertThat(seen).containsAll(line.signals()));
      }
    }
  }

  private static List<String> due(Schedule schedule, Stage stage) {
    List<String> due = new ArrayList<>();
    for (MeasureLine line : schedule.lines()) {
      boolean whenDone = line.timing() instanceof Timing.WhenDone;
      boolean inTime = !line.timing().due(stage.stretch(), stage.lasts()).isEmpty();
      if (whenDone ? stage.untilDone() : inTime) {
        due.addAll(line.signals());
      }
    }
    return due;
  }

  private static void answerAll(Protocol protocol, Session session) {
    for (BaselineLine line : protocol.baselines()) {
      for (String signal : line.signals()) {
        Reading reading =
            switch (signal) {
              case "heart_rate" -> Readings.heartRate(65);
              case "systolic" -> Readings.measured(signal, Quantity.of(120, Unit.MMHG));
              case "diastolic" -> Readings.measured(signal, Quantity.of(78, Unit.MMHG));
              case "saturation" -> Readings.measured(signal, Quantity.of(97, Unit.PERCENT));
              default -> throw new IllegalStateException("no baseline for " + signal);
            };
        session.record(Duration.ZERO, new Reading.Baseline(line.posture(), reading));
      }
    }
    for (Question question : protocol.instruments().questions().values()) {
      session.record(Duration.ZERO, answer(question));
    }
  }

  private static Reading answer(Question question) {
    if (question.type().equals(Type.CONDITION)) {
      return Readings.answer(question.name(), false);
    } else if (question.type() instanceof Type.Choice choice) {
      return Readings.chosen(question.name(), choice.options().get(0));
    }
    return Readings.answer(
        question.name(),
        question.options().isEmpty()
            ? question.range().orElseThrow().low()
            : question.options().get(0).value());
  }
}
