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

/**
 * What was decided, and what else happened that a reader has to know. Readings that only went on as
 * planned are left to the table of stages.
 */
final class DecisionRows {

  private final List<Retold> test;
  private final References references;

  DecisionRows(List<Retold> test, References references) {
    this.test = test;
    this.references = references;
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
      return rowOfAlarm("read: " + readings(read.readings()));
    }

    @Override
    public Optional<List<Cell>> reported(Event.Reported reported) {
      String grade = reported.grade().isPresent() ? ", grade " + reported.grade().getAsInt() : "";
      return row("reported: " + words(reported.sign()) + grade, after(told.answer()));
    }

    @Override
    public Optional<List<Cell>> withdrawn(Event.Withdrawn withdrawn) {
      return row("withdrawn: " + words(withdrawn.sign()), withdrawn.reason());
    }

    @Override
    public Optional<List<Cell>> amended(Event.Amended amended) {
      String first = readings(test.get(amended.event() - 1).event());
      return row("put right: " + first + " is " + readings(amended.readings()), amended.reason());
    }

    @Override
    public Optional<List<Cell>> rejected(Event.Rejected rejected) {
      return row("taken back: " + words(rejected.subject()), rejected.reason());
    }

    @Override
    public Optional<List<Cell>> loadSet(Event.LoadSet set) {
      return row("load set: " + set.load().name() + " " + set.load().value(), "as told");
    }

    @Override
    public Optional<List<Cell>> done(Event.Done done) {
      return rowOfAlarm("done at " + Times.clock(done.reached()));
    }

    @Override
    public Optional<List<Cell>> followed(Event.Followed followed) {
      Decision decision = told.before();
      return row(shown(followed.verdict(), decision) + " – followed", cell("", decision));
    }

    @Override
    public Optional<List<Cell>> overridden(Event.Overridden overridden) {
      Decision decision = told.before();
      return row(
          overridden.verdict() + " – the tester's own decision",
          cell(
              Words.sentence(overridden.reason())
                  + " Recommended was "
                  + decision.verdict()
                  + " – ",
              decision));
    }

    @Override
    public Optional<List<Cell>> abandoned(Event.Abandoned abandoned) {
      return row("broken off", abandoned.reason());
    }
  }

  private static String words(String name) {
    return name.replace('_', ' ');
  }

  // What was done does not say why not to test; the decision does.
  private static Verdict shown(Verdict followed, Decision decision) {
    return followed instanceof Verdict.Defer ? decision.verdict() : followed;
  }

  private static String readings(Event event) {
    return event instanceof Event.Read read ? readings(read.readings()) : "what was told";
  }

  private static String readings(List<Reading> readings) {
    return String.join(
        ", ",
        readings.stream()
            .map(reading -> reading.subject().replace('_', ' ') + " " + reading)
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
    String verdict = decision.verdict().toString();
    return why(decision).isEmpty() ? new Cell(verdict) : cell(verdict + " – ", decision);
  }

  private Cell cell(String lead, Decision decision) {
    return new Cell(
        lead + why(decision),
        decision.because().flatMap(Because::filled).map(Object::toString).orElse(""),
        0);
  }

  private String why(Decision decision) {
    StringBuilder words = new StringBuilder(decision.because().map(this::why).orElse(""));
    if (!decision.firmness().isFirm()) {
      words
          .append(" Marginal: the readings' own step could flip ")
          .append(String.join("; ", decision.firmness().couldFlip()))
          .append('.');
    }
    return words.toString().strip();
  }

  private String why(Because because) {
    return because.rule() + ": " + because.shortly() + references.behind(because.source());
  }
}
