package org.gradus.exchange.table;

import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Reading;
import org.gradus.session.Times;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;

/** Writes one event as rows. */
final class EventRows implements Event.Visitor<List<Map<Column, String>>> {

  static final String FOLLOWED = "followed";
  static final String OVERRIDDEN = "overridden";

  private final int number;

  EventRows(int number) {
    this.number = number;
  }

  private Map<Column, String> row(RowAction action, Duration at) {
    Map<Column, String> row = new EnumMap<>(Column.class);
    row.put(Column.NUMBER, Integer.toString(number));
    row.put(Column.AT, Times.exact(at));
    row.put(Column.ACTION, action.word());
    return row;
  }

  @Override
  public List<Map<Column, String>> read(Event.Read event) {
    return event.readings().stream()
        .map(
            reading -> {
              Map<Column, String> row = reading(row(RowAction.READ, event.at()), reading);
              putTaken(row, event.taken(), event.at());
              return row;
            })
        .toList();
  }

  private static void putTaken(Map<Column, String> row, Duration taken, Duration at) {
    if (!taken.equals(at)) {
      row.put(Column.TAKEN, Times.exact(taken));
    }
  }

  private static Map<Column, String> reading(Map<Column, String> row, Reading reading) {
    Reading bare = reading;
    if (reading instanceof Reading.Baseline baseline) {
      row.put(Column.POSTURE, baseline.posture().word());
      bare = baseline.reading();
    }
    row.put(Column.NAME, Cells.text(bare.subject()));
    if (bare instanceof Reading.Measured measured) {
      put(row, measured.value());
      measured.step().ifPresent(step -> row.put(Column.STEP, in(step, measured.value())));
      measured.scale().ifPresent(scale -> row.put(Column.SCALE, Cells.text(scale)));
    } else if (bare instanceof Reading.Answered answered) {
      row.put(Column.VALUE, Cells.truth(answered.yes()));
    } else if (bare instanceof Reading.Chosen chosen) {
      row.put(Column.VALUE, Cells.text(chosen.word()));
    }
    return row;
  }

  static void put(Map<Column, String> row, Quantity value) {
    row.put(Column.VALUE, Cells.number(value.amount()));
    row.put(Column.UNIT, value.unit().symbol());
  }

  private static String in(Quantity quantity, Quantity like) {
    return Cells.number(quantity.in(like.unit()));
  }

  @Override
  public List<Map<Column, String>> reported(Event.Reported event) {
    Map<Column, String> row = named(RowAction.REPORT, event.at(), event.sign());
    event.grade().ifPresent(grade -> row.put(Column.VALUE, Integer.toString(grade)));
    return List.of(row);
  }

  @Override
  public List<Map<Column, String>> withdrawn(Event.Withdrawn event) {
    return List.of(because(named(RowAction.WITHDRAW, event.at(), event.sign()), event));
  }

  @Override
  public List<Map<Column, String>> amended(Event.Amended event) {
    return event.readings().stream()
        .map(
            reading -> {
              Map<Column, String> row = reading(row(RowAction.AMEND, event.at()), reading);
              row.put(Column.OF, Integer.toString(event.event()));
              return because(row, event);
            })
        .toList();
  }

  @Override
  public List<Map<Column, String>> rejected(Event.Rejected event) {
    Map<Column, String> row = named(RowAction.REJECT, event.at(), event.subject());
    row.put(Column.OF, Integer.toString(event.event()));
    return List.of(because(row, event));
  }

  @Override
  public List<Map<Column, String>> loadSet(Event.LoadSet event) {
    return List.of(load(row(RowAction.LOAD, event.at()), event.load()));
  }

  private static Map<Column, String> load(Map<Column, String> row, Loading load) {
    row.put(Column.NAME, Cells.text(load.name()));
    put(row, load.value());
    load.ramp()
        .ifPresent(
            ramp -> {
              row.put(Column.STEP, in(ramp.step(), load.value()));
              row.put(Column.EVERY, Times.exact(ramp.every()));
              row.put(Column.TO, in(ramp.to(), load.value()));
            });
    return row;
  }

  @Override
  public List<Map<Column, String>> done(Event.Done event) {
    Map<Column, String> row = row(RowAction.DONE, event.at());
    putTaken(row, event.reached(), event.at());
    return List.of(row);
  }

  // What a followed verdict sets is what the protocol sets; it is not written down twice.
  @Override
  public List<Map<Column, String>> followed(Event.Followed event) {
    return List.of(verdict(event.verdict(), event.at(), FOLLOWED));
  }

  @Override
  public List<Map<Column, String>> overridden(Event.Overridden event) {
    List<Map<Column, String>> rows = new ArrayList<>();
    Map<Column, String> row = because(verdict(event.verdict(), event.at(), OVERRIDDEN), event);
    if (event.verdict() instanceof Verdict.Stop stop) {
      row.put(Column.NAME, Cells.text(stop.instruction()));
    }
    rows.add(row);
    event.verdict().loads().forEach(load -> rows.add(load(row(RowAction.WITH, event.at()), load)));
    return rows;
  }

  private Map<Column, String> verdict(Verdict verdict, Duration at, String how) {
    Map<Column, String> row = row(action(verdict), at);
    row.put(Column.HOW, how);
    switch (verdict.kind()) {
      case READY -> row.put(Column.NAME, ((Verdict.Ready) verdict).stage());
      case CHANGE -> row.put(Column.NAME, ((Verdict.Change) verdict).stage());
      case ADVANCE -> row.put(Column.NAME, ((Verdict.Advance) verdict).stage());
      case HOLD -> row.put(Column.UNTIL, Times.exact(((Verdict.Hold) verdict).until()));
      case CONTINUE -> row.put(Column.UNTIL, Times.exact(((Verdict.Continue) verdict).until()));
      case STOP -> row.put(Column.VALUE, Cells.truth(((Verdict.Stop) verdict).rest()));
      case DEFER, MEASURE, FINISH, END, NOT_RECOVERED, OVER -> {}
    }
    return row;
  }

  private static RowAction action(Verdict verdict) {
    return RowAction.named(verdict.kind().name().toLowerCase(Locale.ROOT)).orElseThrow();
  }

  @Override
  public List<Map<Column, String>> abandoned(Event.Abandoned event) {
    return List.of(because(row(RowAction.ABANDON, event.at()), event));
  }

  private Map<Column, String> named(RowAction action, Duration at, String name) {
    Map<Column, String> row = row(action, at);
    row.put(Column.NAME, Cells.text(name));
    return row;
  }

  private static Map<Column, String> because(Map<Column, String> row, Event event) {
    row.put(Column.REASON, Cells.text(event.reason()));
    return row;
  }
}
