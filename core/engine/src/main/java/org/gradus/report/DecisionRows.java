package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.report.Block.Cell;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Retold;
import org.gradus.session.Times;
import org.gradus.session.Verdict;
import org.gradus.words.Joined;
import org.gradus.words.Name;

/**
 * What was decided, and what else happened that a reader has to know. Readings that only went on as
 * planned are left to the table of stages.
 */
final class DecisionRows {

  private final List<Retold> test;
  private final References references;
  private final Words words;

  DecisionRows(List<Retold> test, References references, Words words) {
    this.test = test;
    this.references = references;
    this.words = words;
  }

  List<List<Cell>> rows() {
    List<List<Cell>> rows = new ArrayList<>();
    for (Retold told : test) {
      told.event().accept(new Row(told)).ifPresent(rows::add);
    }
    return rows;
  }

  /** The row of one event: when, what, and why; empty for what went on as planned. */
  private final class Row implements Event.Visitor<Optional<List<Cell>>> {

    private final Retold told;

    private Row(Retold told) {
      this.told = told;
    }

    private Optional<List<Cell>> row(String what, String why) {
      return row(what, new Cell(why));
    }

    private Optional<List<Cell>> row(String what, Cell why) {
      return Optional.of(List.of(new Cell(Times.clock(told.event().at())), new Cell(what), why));
    }

    private Optional<List<Cell>> rowOfAlarm(String what) {
      return isAlarm(told.answer()) ? row(what, after(told.answer())) : Optional.empty();
    }

    @Override
    public Optional<List<Cell>> read(Event.Read read) {
      return rowOfAlarm(words.say(ReportMessage.READ, readings(read.readings())));
    }

    @Override
    public Optional<List<Cell>> reported(Event.Reported reported) {
      Name sign = new Name(reported.sign());
      String what =
          reported.grade().isPresent()
              ? words.say(ReportMessage.REPORTED_GRADE, sign, reported.grade().getAsInt())
              : words.say(ReportMessage.REPORTED, sign);
      return row(what, after(told.answer()));
    }

    @Override
    public Optional<List<Cell>> withdrawn(Event.Withdrawn withdrawn) {
      return row(
          words.say(ReportMessage.WITHDRAWN, new Name(withdrawn.sign())), withdrawn.reason());
    }

    @Override
    public Optional<List<Cell>> amended(Event.Amended amended) {
      String first = readings(test.get(amended.event() - 1).event());
      return row(
          words.say(ReportMessage.PUT_RIGHT, first, readings(amended.readings())),
          amended.reason());
    }

    @Override
    public Optional<List<Cell>> rejected(Event.Rejected rejected) {
      return row(
          words.say(ReportMessage.TAKEN_BACK, new Name(rejected.subject())), rejected.reason());
    }

    @Override
    public Optional<List<Cell>> loadSet(Event.LoadSet set) {
      return row(
          words.say(ReportMessage.LOAD_SET, new Name(set.load().name()), set.load().value()),
          words.say(ReportMessage.AS_TOLD));
    }

    @Override
    public Optional<List<Cell>> done(Event.Done done) {
      return rowOfAlarm(words.say(ReportMessage.DONE_AT, Times.clock(done.reached())));
    }

    @Override
    public Optional<List<Cell>> followed(Event.Followed followed) {
      Decision decision = told.before();
      return row(
          words.say(ReportMessage.FOLLOWED, shown(followed.verdict(), decision).message()),
          cell("", decision));
    }

    @Override
    public Optional<List<Cell>> overridden(Event.Overridden overridden) {
      Decision decision = told.before();
      return row(
          words.say(ReportMessage.OVERRIDDEN, overridden.verdict().message()),
          cell(
              words.say(
                      ReportMessage.RECOMMENDED_WAS,
                      Words.sentence(overridden.reason()),
                      decision.verdict().message())
                  + " – ",
              decision));
    }

    @Override
    public Optional<List<Cell>> abandoned(Event.Abandoned abandoned) {
      return row(words.say(ReportMessage.BROKEN_OFF), abandoned.reason());
    }
  }

  // What was done does not say why not to test; the decision does.
  private static Verdict shown(Verdict followed, Decision decision) {
    return followed instanceof Verdict.Defer ? decision.verdict() : followed;
  }

  private String readings(Event event) {
    return event instanceof Event.Read read
        ? readings(read.readings())
        : words.say(ReportMessage.WHAT_WAS_TOLD);
  }

  private String readings(List<Reading> readings) {
    return String.join(
        ", ",
        readings.stream()
            .map(reading -> words.say(Joined.PAIR, new Name(reading.subject()), reading.message()))
            .toList());
  }

  private static boolean isAlarm(Decision answer) {
    boolean alarm =
        switch (answer.verdict().kind()) {
          case STOP, MEASURE -> true;
          case READY, DEFER, CONTINUE, HOLD, CHANGE, ADVANCE, FINISH, END, NOT_RECOVERED, OVER ->
              false;
        };
    // Before the test everything is asked for in turn; that is nothing to tell.
    return alarm && answer.phase() != Phase.BEFORE;
  }

  private Cell after(Decision decision) {
    String verdict = words.say(decision.verdict().message());
    return why(decision).isEmpty() ? new Cell(verdict) : cell(verdict + " – ", decision);
  }

  private Cell cell(String lead, Decision decision) {
    return new Cell(
        lead + why(decision),
        decision.because().flatMap(Because::filled).map(Object::toString).orElse(""),
        0);
  }

  private String why(Decision decision) {
    String why = decision.because().map(this::why).orElse("");
    return decision.firmness().isFirm()
        ? why
        : (why
                + " "
                + words.say(
                    ReportMessage.MARGINAL, String.join("; ", decision.firmness().couldFlip())))
            .strip();
  }

  private String why(Because because) {
    return because.rule()
        + ": "
        + words.say(because.message())
        + references.behind(because.source());
  }
}
