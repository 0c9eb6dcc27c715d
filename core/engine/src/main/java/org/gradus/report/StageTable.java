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

/** The stages with what was read at their ends, as a table and as a drawing. */
final class StageTable {

  private static final String HEART_RATE = "heart_rate";

  private final Protocol protocol;
  private final Capacity capacity;
  private final List<StageRow> stages;

  StageTable(Outcome outcome, Capacity capacity) {
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
    List<String> heads = new ArrayList<>(List.of("stage", "from", "lasted", "load"));
    signals.forEach(signal -> heads.add(signal.replace('_', ' ')));
    maximum.ifPresent(rate -> heads.add("share of the maximal heart rate, " + rate.rounded(0)));
    heads.addAll(List.of("oxygen uptake", "for the estimate"));
    List<List<String>> rows = new ArrayList<>();
    for (StageRow row : stages) {
      StageResult stage = row.stage();
      List<String> cells = new ArrayList<>();
      cells.add(stage.id() + uncounted(stage));
      cells.add(Times.clock(stage.start()));
      cells.add(Times.clock(stage.lasted()) + (stage.completed() ? "" : ", broken off"));
      cells.add(Loading.line(stage.loads()));
      signals.forEach(signal -> cells.add(row.reading(signal).map(StageTable::shown).orElse("–")));
      maximum.ifPresent(
          rate -> cells.add(heartRate(row).map(found -> share(found, rate)).orElse("–")));
      cells.add(row.uptake().map(uptake -> uptake.rounded(1).toString()).orElse("–"));
      cells.add(row.used() ? "used" : "–");
      rows.add(cells);
    }
    return Table.of("Stages, with what counted at the end of each", heads, rows);
  }

  private List<String> signals() {
    return protocol.schedule().lines().stream()
        .flatMap(line -> line.signals().stream())
        .distinct()
        .filter(name -> StageRow.isAskedFor(name, protocol))
        .toList();
  }

  private static String shown(Reading reading) {
    return reading instanceof Reading.Measured measured
        ? measured.value().rounded(1).toString()
        : reading.toString();
  }

  /** The drawing, where at least one stage has both values. */
  Optional<UptakeChart> chart() {
    List<Point> points = new ArrayList<>();
    for (StageRow row : stages) {
      Optional<Quantity> rate = heartRate(row);
      if (row.uptake().isPresent() && rate.isPresent()) {
        points.add(
            new Point(row.stage().id(), row.uptake().get().base(), rate.get().base(), row.used()));
      }
    }
    return points.isEmpty() ? Optional.empty() : Optional.of(new UptakeChart(points, answer()));
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

  private static String uncounted(StageResult stage) {
    return stage.pause() ? " (pause)" : stage.warmUp() ? " (warm-up)" : "";
  }
}
