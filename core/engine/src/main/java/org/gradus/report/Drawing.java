package org.gradus.report;

import java.util.DoubleSummaryStatistics;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.gradus.report.Chart.Point;
import org.gradus.report.Chart.Reading;

/** Draws heart rate against uptake as SVG. Shapes differ, not colours alone. */
final class Drawing {

  private static final double WIDTH = 720;
  private static final double HEIGHT = 440;
  private static final double LEFT = 70;
  private static final double RIGHT = 20;
  private static final double TOP = 40;
  private static final double BOTTOM = 60;

  private final Chart chart;
  private final Axis uptake;
  private final Axis heartRate;
  private final StringBuilder out = new StringBuilder();

  /** A scale from one round number to another. */
  private record Axis(double from, double to, double step) {

    static Axis over(DoubleStream values) {
      DoubleSummaryStatistics all = values.summaryStatistics();
      double span = Math.max(1, all.getMax() - all.getMin());
      double rough = Math.pow(10, Math.floor(Math.log10(span)));
      double step = span / rough > 5 ? rough : span / rough > 2 ? rough / 2 : rough / 5;
      double from = Math.floor((all.getMin() - step / 2) / step) * step;
      double to = Math.ceil((all.getMax() + step / 2) / step) * step;
      return new Axis(from, to, step);
    }

    double share(double value) {
      return (value - from) / (to - from);
    }
  }

  Drawing(Chart chart) {
    this.chart = chart;
    Optional<Reading> read = chart.answer();
    this.uptake =
        Axis.over(
            DoubleStream.concat(
                chart.points().stream().mapToDouble(Point::uptake),
                read.stream().flatMapToDouble(r -> DoubleStream.of(r.low(), r.high()))));
    this.heartRate =
        Axis.over(
            DoubleStream.concat(
                chart.points().stream().mapToDouble(Point::heartRate),
                read.stream().mapToDouble(Reading::heartRate)));
  }

  String svg() {
    out.append(
        "<svg viewBox=\"0 0 720 440\" role=\"img\" aria-labelledby=\"chart-title chart-words\"");
    out.append(" font-family=\"system-ui, sans-serif\" font-size=\"14\" fill=\"#1a1a1a\">\n");
    out.append("<title id=\"chart-title\">Heart rate against oxygen uptake</title>\n");
    out.append("<desc id=\"chart-words\">").append(HtmlPage.escaped(chart.words()));
    out.append("</desc>\n");
    axes();
    chart.answer().ifPresent(this::answer);
    chart.points().forEach(this::point);
    return out.append("</svg>\n").toString();
  }

  private double x(double value) {
    return LEFT + uptake.share(value) * (WIDTH - LEFT - RIGHT);
  }

  private double y(double value) {
    return HEIGHT - BOTTOM - heartRate.share(value) * (HEIGHT - TOP - BOTTOM);
  }

  private void axes() {
    double floor = HEIGHT - BOTTOM;
    for (double tick = uptake.from();
        tick <= uptake.to() + uptake.step() / 2;
        tick += uptake.step()) {
      line(x(tick), TOP, x(tick), floor, "stroke=\"#d0d0d0\"");
      text(x(tick), floor + 20, "middle", Chart.number(tick));
    }
    for (double tick = heartRate.from();
        tick <= heartRate.to() + heartRate.step() / 2;
        tick += heartRate.step()) {
      line(LEFT, y(tick), WIDTH - RIGHT, y(tick), "stroke=\"#d0d0d0\"");
      text(LEFT - 8, y(tick) + 5, "end", Chart.number(tick));
    }
    line(LEFT, floor, WIDTH - RIGHT, floor, "stroke=\"#1a1a1a\" stroke-width=\"2\"");
    line(LEFT, TOP, LEFT, floor, "stroke=\"#1a1a1a\" stroke-width=\"2\"");
    text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 14, "middle", "oxygen uptake, mL/kg/min");
    text(LEFT, TOP - 14, "middle", "bpm");
  }

  private void point(Point point) {
    String fill = point.used() ? "#0b57a4" : "#fff";
    out.append(
        String.format(
            Locale.ROOT,
            "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"7\" fill=\"%s\" stroke=\"#0b57a4\""
                + " stroke-width=\"2.5\"/>%n",
            x(point.uptake()),
            y(point.heartRate()),
            fill));
    text(x(point.uptake()) + 11, y(point.heartRate()) + 18, "start", point.stage());
  }

  private void answer(Reading read) {
    double y = y(read.heartRate());
    line(LEFT, y, WIDTH - RIGHT, y, "stroke=\"#1a1a1a\" stroke-dasharray=\"6 5\"");
    Optional<Point> first = chart.points().stream().filter(Point::used).findFirst();
    first.ifPresent(this::line);
    String bar = "stroke=\"#8a1c00\" stroke-width=\"4\"";
    line(x(read.low()), y, x(read.high()), y, bar);
    line(x(read.low()), y - 9, x(read.low()), y + 9, bar);
    line(x(read.high()), y - 9, x(read.high()), y + 9, bar);
    double at = x(read.vo2max());
    out.append(
        String.format(
            Locale.ROOT,
            "<path d=\"M%.1f %.1f l9 9 l-9 9 l-9 -9 z\" fill=\"#8a1c00\"/>%n",
            at,
            y - 9));
    text(at, y + 28, "middle", Chart.number(read.vo2max()));
  }

  // Through the stages that were used, by least squares, to where the capacity is read.
  private void line(Point first) {
    Reading read = chart.answer().orElseThrow();
    line(
        x(first(read)),
        y(first.heartRate()),
        x(read.vo2max()),
        y(read.heartRate()),
        "stroke=\"#0b57a4\" stroke-width=\"2\"");
  }

  // The line passes through the mean of the stages and the answer: that is where it begins too.
  private double first(Reading read) {
    double meanX = used().mapToDouble(Point::uptake).average().orElse(read.vo2max());
    double meanY = used().mapToDouble(Point::heartRate).average().orElse(read.heartRate());
    double rate = used().findFirst().map(Point::heartRate).orElse(read.heartRate());
    double rise = read.heartRate() - meanY;
    return rise == 0 ? meanX : meanX + (rate - meanY) * (read.vo2max() - meanX) / rise;
  }

  private java.util.stream.Stream<Point> used() {
    return chart.points().stream().filter(Point::used);
  }

  private void line(double x1, double y1, double x2, double y2, String stroke) {
    out.append(
        String.format(
            Locale.ROOT,
            "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" %s/>%n",
            x1,
            y1,
            x2,
            y2,
            stroke));
  }

  private void text(double x, double y, String anchor, String words) {
    out.append(
        String.format(
            Locale.ROOT,
            "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">%s</text>%n",
            x,
            y,
            anchor,
            HtmlPage.escaped(words)));
  }
}
