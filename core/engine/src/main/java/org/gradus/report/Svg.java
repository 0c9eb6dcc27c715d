package org.gradus.report;

import java.util.Locale;

/**
 * Writes the shapes of a drawing. How they look, in light, in dark and on paper, is said by the
 * classes of the page.
 */
final class Svg {

  private final StringBuilder out = new StringBuilder();

  /** All shapes drawn so far. */
  String shapes() {
    return out.toString();
  }

  void line(double x1, double y1, double x2, double y2, String look) {
    shape(
        "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" class=\"%s\"/>%n",
        x1, y1, x2, y2, look);
  }

  void circle(double x, double y, double radius, String look) {
    shape("<circle cx=\"%.1f\" cy=\"%.1f\" r=\"%.1f\" class=\"%s\"/>%n", x, y, radius, look);
  }

  void box(double x, double y, double width, double height, String look) {
    shape(
        "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" class=\"%s\"/>%n",
        x, y, width, height, look);
  }

  void diamond(double x, double y, double size, String look) {
    shape(
        "<path d=\"M%.1f %.1f l%.1f %.1f l-%.1f %.1f l-%.1f -%.1f z\" class=\"%s\"/>%n",
        x, y - size, size, size, size, size, size, size, look);
  }

  /** A bar with ends, from one place to another at a height. */
  void span(double from, double to, double y, String look) {
    line(from, y, to, y, look);
    line(from, y - 7, from, y + 7, look);
    line(to, y - 7, to, y + 7, look);
  }

  /**
   * Words.
   *
   * @param anchor {@code start}, {@code middle} or {@code end}
   * @param look classes, or empty
   */
  void text(double x, double y, String anchor, String look, String words) {
    shape(
        "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" class=\"%s\">%s</text>%n",
        x, y, anchor, look, HtmlPage.escaped(words));
  }

  private void shape(String form, Object... values) {
    out.append(String.format(Locale.ROOT, form, values));
  }
}
