package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;

/**
 * Heart rate against oxygen uptake. Shapes differ, not colours alone.
 *
 * @param points the stages
 * @param answer where the line is read, with the interval around it
 * @param in the language
 */
record UptakeChart(List<Point> points, Optional<Answer> answer, Words in) implements Figure {

  private static final double WIDTH = 640;
  private static final double LEFT = 60;
  private static final double RIGHT = 24;
  private static final double TOP = 34;
  private static final double BOTTOM = 54;
  private static final double HEIGHT = 340;

  /**
   * The end of a stage.
   *
   * @param stage which
   * @param uptake in mL/kg/min
   * @param heartRate in bpm
   * @param used whether the estimate rests on it
   */
  record Point(String stage, double uptake, double heartRate, boolean used) {}

  /**
   * Where a capacity is read.
   *
   * @param heartRate at which heart rate
   * @param vo2max the capacity
   * @param low the lower end of its interval
   * @param high the upper end
   */
  record Answer(double heartRate, double vo2max, double low, double high) {}

  UptakeChart {
    points = List.copyOf(points);
  }

  @Override
  public String title() {
    return in.say(ReportMessage.UPTAKE_CHART);
  }

  @Override
  public String legend() {
    return in.say(ReportMessage.UPTAKE_LEGEND)
        + (answer.isPresent() ? " " + in.say(ReportMessage.UPTAKE_LEGEND_BAR) : "");
  }

  @Override
  public String words() {
    List<String> sentences = new ArrayList<>();
    sentences.add(Words.sentence(title()));
    for (Point point : points) {
      sentences.add(
          in.say(
              point.used() ? ReportMessage.UPTAKE_POINT_USED : ReportMessage.UPTAKE_POINT,
              point.stage(),
              Figure.number(point.heartRate()),
              Figure.number(point.uptake())));
    }
    answer.ifPresent(
        read ->
            sentences.add(
                in.say(
                    ReportMessage.UPTAKE_READ,
                    Figure.number(read.heartRate()),
                    Figure.number(read.vo2max()),
                    Figure.number(read.low()),
                    Figure.number(read.high()))));
    return String.join(" ", sentences);
  }

  @Override
  public double width() {
    return WIDTH;
  }

  @Override
  public double height() {
    return HEIGHT;
  }

  private Axis uptake() {
    return Axis.over(
        DoubleStream.concat(
            points.stream().mapToDouble(Point::uptake),
            answer.stream().flatMapToDouble(read -> DoubleStream.of(read.low(), read.high()))));
  }

  private Axis heartRate() {
    return Axis.over(
        DoubleStream.concat(
            points.stream().mapToDouble(Point::heartRate),
            answer.stream().mapToDouble(Answer::heartRate)));
  }

  private double x(double value) {
    return LEFT + uptake().share(value) * (WIDTH - LEFT - RIGHT);
  }

  private double y(double value) {
    return HEIGHT - BOTTOM - heartRate().share(value) * (HEIGHT - TOP - BOTTOM);
  }

  @Override
  public void draw(Svg svg) {
    double floor = HEIGHT - BOTTOM;
    for (double mark : uptake().marks()) {
      svg.line(x(mark), TOP, x(mark), floor, "grid");
      svg.text(x(mark), floor + 20, "middle", "", Figure.number(mark));
    }
    for (double mark : heartRate().marks()) {
      svg.line(LEFT, y(mark), WIDTH - RIGHT, y(mark), "grid");
      svg.text(LEFT - 8, y(mark) + 5, "end", "", Figure.number(mark));
    }
    svg.line(LEFT, floor, WIDTH - RIGHT, floor, "axis");
    svg.line(LEFT, TOP, LEFT, floor, "axis");
    svg.text(LEFT, HEIGHT - 12, "start", "soft", in.say(ReportMessage.UPTAKE_AXIS));
    svg.text(4, TOP - 14, "start", "soft", in.say(ReportMessage.RATE_AXIS));
    answer.ifPresent(read -> answer(read, svg));
    for (Point point : points) {
      svg.circle(x(point.uptake()), y(point.heartRate()), 7, point.used() ? "full" : "hollow");
      svg.text(x(point.uptake()) + 11, y(point.heartRate()) + 18, "start", "", point.stage());
    }
  }

  private void answer(Answer read, Svg svg) {
    double y = y(read.heartRate());
    svg.line(LEFT, y, WIDTH - RIGHT, y, "dashed");
    used().findFirst().ifPresent(first -> line(first, read, svg));
    svg.span(x(read.low()), x(read.high()), y, "bar");
    svg.diamond(x(read.vo2max()), y, 9, "mark");
    svg.text(x(read.vo2max()), y + 28, "middle", "strong", Figure.number(read.vo2max()));
  }

  // Through the stages that were used, by least squares, to where the capacity is read. It passes
  // through the mean of the stages and the answer: that is where it begins too.
  private void line(Point first, Answer read, Svg svg) {
    double meanX = used().mapToDouble(Point::uptake).average().orElse(read.vo2max());
    double meanY = used().mapToDouble(Point::heartRate).average().orElse(read.heartRate());
    double rise = read.heartRate() - meanY;
    double start =
        rise == 0 ? meanX : meanX + (first.heartRate() - meanY) * (read.vo2max() - meanX) / rise;
    svg.line(x(start), y(first.heartRate()), x(read.vo2max()), y(read.heartRate()), "slope");
  }

  private Stream<Point> used() {
    return points.stream().filter(Point::used);
  }
}
