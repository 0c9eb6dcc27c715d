package org.gradus.examples.console;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.gradus.bundled.Bundled;
import org.gradus.protocol.Protocol;
import org.gradus.session.Loading;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.gradus.words.Language;
import org.junit.jupiter.api.Test;

class DecisionSentenceTest {

  private static final Protocol ROWING = Bundled.library("row-steps").protocol("row-steps");

  private static String said(Verdict verdict, Locale locale) {
    return DecisionSentence.of(verdict, ROWING, PageWords.in(Language.of(locale)));
  }

  @Test
  void intoAPauseNoLoadIsSet() {
    Verdict rest = new Verdict.Advance("pause_1");
    assertThat(said(rest, Locale.ENGLISH))
        .isEqualTo("Go on to pause 1. Set no load: the person rests.");
    assertThat(said(rest, Locale.GERMAN)).contains("Keine Last einstellen");
    Verdict row =
        new Verdict.Advance("row_2", List.of(new Loading("power", Quantity.of(90, Unit.WATT))));
    assertThat(said(row, Locale.ENGLISH)).isEqualTo("Go on to row 2. Set 90 W.");
  }
}
