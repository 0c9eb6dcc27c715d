package org.gradus.report;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.gradus.session.Times;

/**
 * Heart rate and cuff pressure against time, above the stages with their loads.
 *
 * @param rates heart rates
 * @param pressures cuff pressures
 * @param stages the stages, with what was set
 * @param ended when the exercise ended, and the word for it, if it has
 * @param in the language
 */
record TimeChart(
    List<Rate> rates, List<Pressure> pressures, List<Stage> stages, Optional<Ended> ended, Words in)
    implements Figure {

  private static final double WIDTH = 640;
  private static final double LEFT = 58;
  private static final double RIGHT = 26;
  private static final double TOP = 30;
  private static final double PLOT = 150;
  private static final double STRIP = 46;
  private static final double BOTTOM = 26;
  // How wide a letter of small text is, about: words that do not fit a box are left out of it.
  private static final double LETTER = 6.4;
  private static final double CUFF_LABEL = 46;

  /** A heart rate in bpm. */
  record Rate(Duration at, double bpm) {}

  /** A cuff pressure in mmHg. */
  record Pressure(Duration at, double systolic, double diastolic) {}

  /**
   * A stage.
   *
   * @param name its name
   * @param load what was set, in words
   * @param from when it began
   * @param to when it ended
   * @param used whether the result rests on it
   */
  record Stage(String name, String load, Duration from, Duration to, boolean used) {}

  /** How the exercise ended: FINISH, STOP. */
  record Ended(Duration at, String word) {}

  TimeChart {
    rates = List.copyOf(rates);
    pressures = List.copyOf(pressures);
    stages = List.copyOf(stages);
  }

  @Override
  public String title() {
    return in.say(ReportMessage.TIME_CHART);
  }

  @Override
  public String legend() {
    return in.say(ReportMessage.TIME_LEGEND)
        + (pressures.isEmpty() ? "" : " " + in.say(ReportMessage.TIME_LEGEND_CUFF))
        + (stages.stream().anyMatch(Stage::used)
            ? " " + in.say(ReportMessage.TIME_LEGEND_USED)
            : "");
  }

  @Override
  public String words() {
    List<String> sentences = new ArrayList<>();
    stages.forEach(
        stage ->
            sentences.add(
                in.say(
                    stage.used() ? ReportMessage.TIME_STAGE_USED : ReportMessage.TIME_STAGE,
                    stage.name(),
                    Times.clock(stage.from()),
                    Times.clock(stage.to()),
                    stage.load())));
    if (!rates.isEmpty()) {
      sentences.add(
          in.say(
              ReportMessage.TIME_RATES,
              rates.stream()
                  .map(rate -> Times.clock(rate.at()) + " " + Figure.number(rate.bpm()))
                  .toList()));
    }
    if (!pressures.isEmpty()) {
      sentences.add(
          in.say(
              ReportMessage.TIME_PRESSURES,
              pressures.stream().map(cuff -> Times.clock(cuff.at()) + " " + shown(cuff)).toList()));
    }
    ended.ifPresent(
        end -> sentences.add(in.say(ReportMessage.TIME_ENDED, Times.clock(end.at()), end.word())));
    return String.join(". ", sentences) + ".";
  }

  private static String shown(Pressure cuff) {
    return Figure.number(cuff.systolic()) + "/" + Figure.number(cuff.diastolic());
  }

  @Override
  public double width() {
    return WIDTH;
  }

  @Override
  public double height() {
    return TOP + PLOT + STRIP + BOTTOM;
  }

  private Axis time() {
    double from = stages.stream().mapToDouble(stage -> stage.from().toSeconds()).min().orElse(0);
    double to =
        Stream.of(
                stages.stream().map(Stage::to),
                rates.stream().map(Rate::at),
                pressures.stream().map(Pressure::at))
            .flatMap(times -> times)
            .mapToDouble(Duration::toSeconds)
            .max()
            .orElse(from);
    return Axis.ofSeconds(from, to);
  }

  private Axis value() {
    return Axis.over(
        DoubleStream.concat(
            rates.stream().mapToDouble(Rate::bpm),
            pressures.stream()
                .flatMapToDouble(cuff -> DoubleStream.of(cuff.systolic() + 10, cuff.diastolic()))));
  }

  private double x(Duration at) {
    return LEFT + time().share(at.toMillis() / 1000.0) * (WIDTH - LEFT - RIGHT);
  }

  private double y(double value) {
    return TOP + (1 - value().share(value)) * PLOT;
  }

  @Override
  public void draw(Svg svg) {
    axes(svg);
    stages.forEach(stage -> stage(stage, svg));
    ended.ifPresent(
        end -> {
          svg.line(x(end.at()), TOP - 4, x(end.at()), TOP + PLOT, "dashed");
          boolean late = x(end.at()) > WIDTH - 140;
          svg.text(x(end.at()), TOP - 10, late ? "end" : "middle", "strong", end.word());
        });
    for (int i = 1; i < rates.size(); i++) {
      Rate from = rates.get(i - 1);
      Rate to = rates.get(i);
      svg.line(x(from.at()), y(from.bpm()), x(to.at()), y(to.bpm()), "slope");
    }
    pressures(svg);
    rates.forEach(rate -> svg.circle(x(rate.at()), y(rate.bpm()), 4.5, "full"));
  }

  // Figures that would run into each other are left out; they stand in the table of readings.
  private void pressures(Svg svg) {
    double last = Double.NEGATIVE_INFINITY;
    for (Pressure cuff : pressures) {
      double x = x(cuff.at());
      svg.line(x, y(cuff.systolic()), x, y(cuff.diastolic()), "cuff");
      if (x - last >= CUFF_LABEL) {
        svg.text(x, y(cuff.systolic()) - 6, "middle", "small", shown(cuff));
        last = x;
      }
    }
  }

  private void axes(Svg svg) {
    double floor = TOP + PLOT + STRIP;
    for (double mark : time().marks()) {
      Duration at = Duration.ofSeconds(Math.round(mark));
      svg.line(x(at), TOP, x(at), floor, "grid");
      svg.text(x(at), floor + 18, "middle", "", Times.clock(at));
    }
    if (!rates.isEmpty() || !pressures.isEmpty()) {
      for (double mark : value().marks()) {
        svg.line(LEFT, y(mark), WIDTH - RIGHT, y(mark), "grid");
        svg.text(LEFT - 8, y(mark) + 5, "end", "", Figure.number(mark));
      }
    }
    svg.line(LEFT, TOP + PLOT, WIDTH - RIGHT, TOP + PLOT, "axis");
    svg.text(4, TOP - 12, "start", "soft", pressures.isEmpty() ? "bpm" : "bpm, mmHg");
    svg.text(4, floor + 18, "start", "soft", in.say(ReportMessage.TIME));
  }

  private void stage(Stage stage, Svg svg) {
    double from = x(stage.from());
    double width = Math.max(1, x(stage.to()) - from);
    double top = TOP + PLOT + 4;
    svg.box(from + 1, top, Math.max(1, width - 2), STRIP - 8, stage.used() ? "used" : "unused");
    List<String> words = List.of(stage.name(), stage.load());
    if (words.stream().allMatch(line -> line.length() * LETTER <= width)) {
      svg.text(from + width / 2, top + 16, "middle", "small", stage.name());
      svg.text(from + width / 2, top + 32, "middle", "small", stage.load());
    }
  }
}
