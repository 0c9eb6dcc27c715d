package org.gradus.protocol;

/** What a name in a rule stands for, seen from the test that has to supply its value. */
public sealed interface Fact {

  /**
   * A reading.
   *
   * @param signal which
   */
  record Read(String signal) implements Fact {}

  /**
   * A reading taken before the test.
   *
   * @param posture how the person was placed
   * @param signal which
   */
  record Baseline(Posture posture, String signal) implements Fact {}

  /**
   * A reading or load as it was at the end of the stage before.
   *
   * @param name the signal or load
   * @param load whether it is a load
   */
  record Previous(String name, boolean load) implements Fact {}

  /**
   * A reading as it was when the exercise ended.
   *
   * @param signal which
   */
  record AtFinish(String signal) implements Fact {}

  /**
   * A reading that a line of the schedule gave a name.
   *
   * @param name the name
   */
  record Named(String name) implements Fact {}

  /**
   * A component of the load that is set.
   *
   * @param name which
   */
  record Load(String name) implements Fact {}

  /**
   * A time or a place in the test.
   *
   * @param which which of them
   */
  record Clock(Which which) implements Fact {
    /** The clocks of a test. */
    public enum Which {
      /** Since the stage began. */
      STAGE_TIME,
      /** Stages done before this one and this one; warm-ups do not count. */
      STAGE_NUMBER,
      /** Which stage it is. */
      STAGE,
      /** Since the first stage began. */
      TEST_TIME,
      /** Since the first stage that is no warm-up began; stands still from finish on. */
      EXERCISE_TIME,
      /** Since recovery began. */
      RECOVERY_TIME
    }
  }

  /**
   * Something about the person.
   *
   * @param which which attribute
   */
  record Attribute(org.gradus.protocol.Attribute which) implements Fact {
    /** The word rules use for it. */
    public String name() {
      return which.word();
    }
  }

  /**
   * An answer to a question.
   *
   * @param question which
   */
  record Answer(String question) implements Fact {}

  /**
   * Something that is worked out when the test is over: the aerobic capacity.
   *
   * @param name which
   */
  record Result(String name) implements Fact {}

  /**
   * A sign or symptom.
   *
   * @param name which
   */
  record Reported(String name) implements Fact {}
}
