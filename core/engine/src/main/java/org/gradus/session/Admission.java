package org.gradus.session;

import static java.util.Objects.requireNonNull;

import org.gradus.diagnostic.ReadingRefused;

/** What became of readings that a sensor sent. */
public sealed interface Admission {

  /**
   * They were taken in.
   *
   * @param answer the decision of their moment
   */
  record Admitted(Decision answer) implements Admission {
    public Admitted {
      requireNonNull(answer, "answer");
    }
  }

  /**
   * They cannot be or do not belong here; the session is as it was.
   *
   * @param why what is wrong with them
   */
  record Refused(ReadingRefused why) implements Admission {
    public Refused {
      requireNonNull(why, "why");
    }
  }
}
