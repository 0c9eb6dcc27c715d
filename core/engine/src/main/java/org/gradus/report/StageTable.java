package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.protocol.Protocol;
import org.gradus.report.Block.Table;
import org.gradus.report.UptakeChart.Point;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.Reading;
import org.gradus.session.StageResult;
import org.gradus.session.Times;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.MessageKey;

/** The stages with what was read at their ends, as a table and as a drawing. */
final class StageTable {

  private static final String HEART_RATE = "heart_rate";

  private final Protocol protocol;
  private final Capacity capacity;
  private final List<StageRow> stages;
  private final Words words;

  StageTable(Outcome outcome, Capacity capacity, Words words) {
    this.words = words;
    this.protocol = outcome.protocol();
    this.capacity = capacity;
    this.stages = StageRow.of(outcome, capacity);
  }

  List<StageRow> rows() {
    return stages;
  }

  Table table() {
    Optional<Quantity> maximum = maximum();
    List<String> signals = signals();
    List<String> heads =
        new ArrayList<>(
            words.heads(
                ReportMessage.STAGE, ReportMessage.FROM, ReportMessage.LASTED, ReportMessage.LOAD));
    signals.forEach(signal -> heads.add(words.name(signal)));
    maximum.ifPresent(
        rate -> heads.add(words.say(ReportMessage.SHARE_OF_MAXIMUM, rate.rounded(0))));
    heads.addAll(words.heads(ReportMessage.UPTAKE, ReportMessage.FOR_ESTIMATE));
    List<List<String>> rows = new ArrayList<>();
    for (StageRow row : stages) {
      StageResult stage = row.stage();
      List<String> cells = new ArrayList<>();
      cells.add(named(stage));
      cells.add(Times.clock(stage.start()));
      cells.add(
          stage.completed()
              ? Times.clock(stage.lasted())
              : words.say(ReportMessage.LASTED_BROKEN_OFF, Times.clock(stage.lasted())));
      cells.add(words.say(Loading.message(stage.loads())));
      signals.forEach(signal -> cells.add(row.reading(signal).map(this::shown).orElse("–")));
      maximum.ifPresent(
          rate -> cells.add(heartRate(row).map(found -> share(found, rate)).orElse("–")));
      cells.add(row.uptake().map(uptake -> uptake.rounded(1).toString()).orElse("–"));
      cells.add(row.used() ? words.say(ReportMessage.USED) : "–");
      rows.add(cells);
    }
    return Table.of(words.say(ReportMessage.STAGES_TABLE), heads, rows);
  }

  private List<String> signals() {
    return protocol.schedule().lines().stream()
        .flatMap(line -> line.signals().stream())
        .distinct()
        .filter(name -> StageRow.isAskedFor(name, protocol))
        .toList();
  }

  private String shown(Reading reading) {
    return reading instanceof Reading.Measured measured
        ? words.say(measured.value().rounded(1))
        : words.say(reading.message());
  }

  /** The drawing, where at least one stage has both values. */
  Optional<UptakeChart> chart() {
    List<Point> points = new ArrayList<>();
    for (StageRow row : stages) {
      Optional<Quantity> rate = heartRate(row);
      if (row.uptake().isPresent() && rate.isPresent()) {
        points.add(
            new Point(
                words.text(row.stage().id()),
                row.uptake().get().base(),
                rate.get().base(),
                row.used()));
      }
    }
    return points.isEmpty()
        ? Optional.empty()
        : Optional.of(new UptakeChart(points, answer(), words));
  }

  private static Optional<Quantity> heartRate(StageRow row) {
    return row.reading(HEART_RATE)
        .filter(Reading.Measured.class::isInstance)
        .map(reading -> ((Reading.Measured) reading).value());
  }

  private Optional<Quantity> maximum() {
    return capacity.facts().reading("max_heart_rate");
  }

  private static String share(Quantity rate, Quantity maximum) {
    return Math.round(100 * rate.base() / maximum.base()) + " %";
  }

  private Optional<UptakeChart.Answer> answer() {
    Optional<Quantity> maximum = maximum();
    return capacity
        .headline()
        .filter(best -> maximum.isPresent() && restsOnMaximum(best))
        .map(
            best ->
                new UptakeChart.Answer(
                    maximum.get().base(),
                    best.vo2max().base(),
                    best.interval().map(around -> around.low().base()).orElse(best.vo2max().base()),
                    best.interval()
                        .map(around -> around.high().base())
                        .orElse(best.vo2max().base())));
  }

  private static boolean restsOnMaximum(Estimate.Available best) {
    return best.ingredients().stream()
        .anyMatch(ingredient -> ingredient.name().equals("max_heart_rate"));
  }

  private String named(StageResult stage) {
    MessageKey shown =
        stage.pause() ? ReportMessage.PAUSE : stage.warmUp() ? ReportMessage.WARM_UP : Joined.ALONE;
    return words.say(shown, new FileText(stage.id()));
  }
}
