package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Times.at;

import java.util.List;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.GradusException;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/** Sessions further on, and what is asked of their decisions. */
final class Sessions {

  private Sessions() {}

  /** A session whose second stage began at 3:00. */
  static Session secondStage() {
    Session session = walking(ines(), 108, 110);
    session.follow(session.decide(at("3:00")));
    return session;
  }

  /** A session that was finished at 3:00. */
  static Session recovering() {
    Session session = walking(ines(), 134, 136);
    session.follow(session.decide(at("3:00")));
    return session;
  }

  static List<String> rules(List<Because> reasons) {
    return reasons.stream().map(Because::rule).toList();
  }

  static List<String> gaps(Decision decision) {
    return ((Verdict.Measure) decision.verdict()).gaps().stream().map(Object::toString).toList();
  }

  static void assertRefused(Code code, ThrowingCallable call) {
    assertThatThrownBy(call)
        .isInstanceOfSatisfying(
            GradusException.class, refused -> assertThat(refused.code()).isEqualTo(code));
  }
}
