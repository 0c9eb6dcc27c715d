package org.gradus.report;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;

/**
 * Values of one kind in rows above one scale: results with their intervals, and printed values to
 * compare them with.
 *
 * @param title what it shows
 * @param unit the unit of the scale
 * @param spans results, from top to bottom
 * @param marks printed values, below them
 * @param in the language
 */
record ScaleChart(String title, String unit, List<Span> spans, List<Marks> marks, Words in)
    implements Figure {

  private static final double WIDTH = 420;
  private static final double SIDE = 24;
  private static final double ROW = 46;
  private static final double MARKS = 58;
  private static final double TOP = 6;
  private static final double BOTTOM = 46;
  private static final double NARROWEST = 22;

  /**
   * A value with its interval.
   *
   * @param label whose or what it is
   * @param low the lower end of the interval; the value where it has none
   * @param value the value
   * @param high the upper end
   */
  record Span(String label, double low, double value, double high) {

    private boolean isWide() {
      return low < high;
    }

    private String words(Words in) {
      return isWide()
          ? in.say(
              ReportMessage.SPAN,
              label,
              Figure.number(value),
              Figure.number(low),
              Figure.number(high))
          : in.say(ReportMessage.SPAN_WITHOUT, label, Figure.number(value));
    }
  }

  /**
   * Printed values.
   *
   * @param label where they are from
   * @param marks the values, from left to right
   */
  record Marks(String label, List<Mark> marks) {
    public Marks {
      marks = List.copyOf(marks);
    }

    private String words() {
      return label
          + ": "
          + marks.stream()
              .map(mark -> mark.name() + " " + Figure.number(mark.value()))
              .collect(Collectors.joining(", "));
    }
  }

  /** A printed value: its name and where it lies. */
  record Mark(String name, double value) {}

  ScaleChart {
    spans = List.copyOf(spans);
    marks = List.copyOf(marks);
  }

  @Override
  public String legend() {
    return (spans.stream().anyMatch(Span::isWide) ? in.say(ReportMessage.BAR_LEGEND) : "")
        + (marks.isEmpty() ? "" : " " + in.say(ReportMessage.MARKS_LEGEND));
  }

  @Override
  public String words() {
    return Stream.concat(
                spans.stream().map(span -> span.words(in)), marks.stream().map(Marks::words))
            .collect(Collectors.joining(". "))
        + ". "
        + in.say(ReportMessage.ALL_IN, unit);
  }

  @Override
  public double width() {
    return WIDTH;
  }

  @Override
  public double height() {
    return TOP + spans.size() * ROW + marks.size() * MARKS + BOTTOM;
  }

  private Axis axis() {
    return Axis.over(
        DoubleStream.concat(
            spans.stream().flatMapToDouble(span -> DoubleStream.of(span.low(), span.high())),
            marks.stream().flatMap(row -> row.marks().stream()).mapToDouble(Mark::value)));
  }

  private double x(double value) {
    return SIDE + axis().share(value) * (WIDTH - 2 * SIDE);
  }

  @Override
  public void draw(Svg svg) {
    double floor = height() - BOTTOM;
    for (double mark : axis().marks()) {
      svg.line(x(mark), TOP, x(mark), floor, "grid");
      svg.text(x(mark), floor + 18, "middle", "", Figure.number(mark));
    }
    svg.line(SIDE, floor, WIDTH - SIDE, floor, "axis");
    svg.text(SIDE, height() - 8, "start", "soft", unit);
    spans.stream()
        .findFirst()
        .filter(span -> !marks.isEmpty())
        .ifPresent(
            span ->
                svg.box(
                    x(span.low()),
                    TOP,
                    Math.max(1, x(span.high()) - x(span.low())),
                    floor - TOP,
                    "tint"));
    double y = TOP;
    for (Span span : spans) {
      span(span, y, svg);
      y += ROW;
    }
    for (Marks row : marks) {
      marks(row, y, svg);
      y += MARKS;
    }
  }

  private void span(Span span, double top, Svg svg) {
    double y = top + 32;
    svg.text(SIDE, top + 16, "start", "soft", span.label());
    if (span.isWide()) {
      svg.span(x(span.low()), x(span.high()), y, "bar");
    }
    svg.diamond(x(span.value()), y, 8, "mark");
  }

  // Names that would run into each other are left out; the values still have their marks.
  private void marks(Marks row, double top, Svg svg) {
    double y = top + 40;
    svg.text(SIDE, top + 16, "start", "soft", row.label());
    svg.line(SIDE, y, WIDTH - SIDE, y, "grid");
    double last = Double.NEGATIVE_INFINITY;
    for (Mark mark : row.marks()) {
      double x = x(mark.value());
      svg.line(x, y - 6, x, y + 4, "tick");
      if (x - last >= NARROWEST) {
        svg.text(x, y - 9, "middle", "", mark.name());
        last = x;
      }
    }
  }
}
