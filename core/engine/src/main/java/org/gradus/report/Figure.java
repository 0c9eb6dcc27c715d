package org.gradus.report;

/** A picture of a report: what it shows, in words and drawn. */
interface Figure {

  /** Its title, which stands above it. */
  String title();

  /** How to read it, which stands below it; empty where nothing has to be said. */
  String legend();

  /** All of it in sentences, for those who do not see it. */
  String words();

  /** How wide it is, in the units of its drawing; text has 14 of them. */
  double width();

  /** How high it is, in the same units. */
  double height();

  /** Draws it. */
  void draw(Svg svg);

  /** A number to one decimal, without a needless one. */
  static String number(double value) {
    return org.gradus.unit.Quantity.plain(Math.rint(value * 10) / 10);
  }
}
