package org.gradus.testkit;

import org.gradus.session.Decision;

/** What decisions and scripts look like to people. */
final class Texts {

  private Texts() {}

  /** What the text of a decision leaves out: two that look alike may differ in it. */
  static String rest(Decision decision) {
    return "["
        + decision.phase()
        + decision.stage().map(stage -> " " + stage).orElse("")
        + ", event "
        + decision.event()
        + ", "
        + decision.verdict().getClass().getSimpleName()
        + ", offers "
        + decision.offers().stream().map(offer -> offer.verdict().word()).toList()
        + ", cautions "
        + decision.cautions().stream().map(why -> why.rule()).toList()
        + ", unchecked "
        + decision.unchecked().stream().map(Decision.Unchecked::rule).toList()
        + ", could flip "
        + decision.firmness().couldFlip()
        + "]";
  }

  /** A text with every line moved to the right. */
  static String indent(String text) {
    return "  " + text.stripTrailing().replace("\n", "\n  ");
  }
}
