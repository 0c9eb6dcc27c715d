package org.gradus.rule.check;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The functions of the language. The list is closed. */
public enum Function {
  /** The distance from zero. */
  ABS("abs(x)", 1),
  /** The natural logarithm. */
  LN("ln(x)", 1),
  /** The exponential. */
  EXP("exp(x)", 1),
  /** The square root. */
  SQRT("sqrt(x)", 1),
  /** The lower of two. */
  LESSER("lesser(x, y)", 2),
  /** The higher of two. */
  GREATER("greater(x, y)", 2),
  /** The nearest multiple of a step, half a step upwards. */
  ROUND("round(x, 1 bpm)", 2),
  /** Whether a value is known. */
  KNOWN("known(x)", 1),
  /** How much a signal has risen over a stretch of time. */
  CHANGE("change(heart_rate, 1 min)", 2),
  /** What a signal was a stretch of time earlier. */
  EARLIER("earlier(heart_rate, 1 min)", 2),
  /** The mean of a signal over a stretch of time. */
  AVERAGE("average(heart_rate, 2 min)", 2),
  /** The highest value of a signal in this stage. */
  HIGHEST("highest(heart_rate)", 1),
  /** The lowest value of a signal in this stage. */
  LOWEST("lowest(heart_rate)", 1),
  /** Whether a sign was reported at any time. */
  EVER("ever(sign)", 1),
  /** In how many stages, this one included, a definition held at the end. */
  COUNT("count(usable)", 1),
  /** Whether a stage was gone through to its end. */
  COMPLETED("completed(walk_1)", 1),
  /** What a table gives for a value. */
  LOOKUP("lookup(table, x)", 2),
  /** The load at which an equation gives an uptake, the other loads being as they are. */
  LOAD_FOR("load_for(walking, grade, uptake)", 3),
  /** The y of a line through stages, read at an x. */
  EXTRAPOLATE("extrapolate(y, x, at)", 3),
  /** The y between the two neighbouring stages where x goes through a value. */
  INTERPOLATE("interpolate(y, x, at)", 3),
  /** The y of a line through stages and an anchor, read at an x. */
  EXTRAPOLATE_THROUGH("extrapolate_through(y, x, anchor_y, anchor_x, anchor_sd, at)", 6);

  private final String example;
  private final int arity;

  Function(String example, int arity) {
    this.example = example;
    this.arity = arity;
  }

  /** The word by which rules call it. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** How it is written. */
  public String example() {
    return example;
  }

  /** How many arguments it takes. */
  public int arity() {
    return arity;
  }

  /** The function of this word, if there is one. */
  public static Optional<Function> named(String word) {
    return Arrays.stream(values()).filter(function -> function.word().equals(word)).findFirst();
  }

  /** The words of all functions. */
  static List<String> words() {
    return Arrays.stream(values()).map(Function::word).toList();
  }
}
