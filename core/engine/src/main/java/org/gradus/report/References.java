package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import org.gradus.knowledge.Citation;

/**
 * Numbers the sources of a report in the order in which they are first cited, so that each of them
 * is printed once.
 */
final class References {

  private final List<String> texts = new ArrayList<>();

  /** What stands in a cell for a source: its number, or {@code practice}, or a dash. */
  String number(Citation source) {
    if (!source.isNamed()) {
      return "–";
    } else if (source.equals(Citation.PRACTICE)) {
      return "practice";
    }
    if (!texts.contains(source.text())) {
      texts.add(source.text());
    }
    return Integer.toString(texts.indexOf(source.text()) + 1);
  }

  /** The same behind a sentence: {@code " (source 3)"}; empty where no source is named. */
  String behind(Citation source) {
    String number = number(source);
    return switch (number) {
      case "–" -> "";
      case "practice" -> " (common practice)";
      default -> " (source " + number + ")";
    };
  }

  /** All sources that were cited, by their numbers. */
  List<String> texts() {
    return List.copyOf(texts);
  }
}
