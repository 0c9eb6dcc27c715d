package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import org.gradus.knowledge.Citation;

/**
 * Numbers the sources of a report in the order in which they are first cited, so that each of them
 * is printed once.
 */
final class References {

  private final Words words;
  private final List<String> texts = new ArrayList<>();

  References(Words words) {
    this.words = words;
  }

  /** What stands in a cell for a source: its number, or {@code practice}, or a dash. */
  String number(Citation source) {
    if (!source.isNamed()) {
      return "–";
    } else if (source.equals(Citation.PRACTICE)) {
      return words.say(ReportMessage.PRACTICE);
    }
    if (!texts.contains(source.text())) {
      texts.add(source.text());
    }
    return Integer.toString(texts.indexOf(source.text()) + 1);
  }

  /** The same behind a sentence: {@code " (source 3)"}; empty where no source is named. */
  String behind(Citation source) {
    if (!source.isNamed()) {
      return "";
    }
    String where =
        source.equals(Citation.PRACTICE)
            ? words.say(ReportMessage.COMMON_PRACTICE)
            : words.say(ReportMessage.SOURCE_NUMBER, number(source));
    return " (" + where + ")";
  }

  /** All sources that were cited, by their numbers. */
  List<String> texts() {
    return List.copyOf(texts);
  }
}
