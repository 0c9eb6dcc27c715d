package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * What a name in a rule stands for, seen from the test that has to supply its value. Each fact says
 * itself {@linkplain #dependsOn what can change its value}; whoever needs the value reads it with a
 * {@link Visitor}, so that a new fact does not compile until every reader deals with it.
 */
public sealed interface Fact {

  /** What can change a value while a test goes on. */
  enum Dependence {
    /** Nothing from the first stage on: the person, the answers, the readings at rest. */
    PERSON,
    /** A reading, told in time or late. */
    READING,
    /** A sign or symptom that is reported or withdrawn. */
    SIGN,
    /** The load that is set, and time where the load rises or falls by itself. */
    LOAD,
    /** The stage: it is as it is until the stage is left. */
    STAGE,
    /** Time alone. */
    CLOCK,
    /** Nothing in a test: it is worked out afterwards. */
    RESULT
  }

  /** What can change its value while a test goes on. */
  Dependence dependsOn();

  /** The signal whose reading it is, taken before the test or in it; empty for anything else. */
  Optional<String> signal();

  /** Hands this fact to the method for its kind. */
  <R> R accept(Visitor<R> visitor);

  /**
   * One method for each kind of fact.
   *
   * @param <R> what is worked out
   */
  interface Visitor<R> {
    R read(Read fact);

    R baseline(Baseline fact);

    R previousReading(PreviousReading fact);

    R previousLoad(PreviousLoad fact);

    R atFinish(AtFinish fact);

    R named(Named fact);

    R load(Load fact);

    R clock(Clock fact);

    R round(Round fact);

    R attribute(Attribute fact);

    R answer(Answer fact);

    R result(Result fact);

    R reported(Reported fact);
  }

  /**
   * A reading.
   *
   * @param of which signal
   */
  record Read(String of) implements Fact {
    public Read {
      requireNonNull(of, "of");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.READING;
    }

    @Override
    public Optional<String> signal() {
      return Optional.of(of);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.read(this);
    }
  }

  /**
   * A reading taken before the test.
   *
   * @param posture how the person was placed
   * @param of which signal
   */
  record Baseline(Posture posture, String of) implements Fact {
    public Baseline {
      requireNonNull(of, "of");
      requireNonNull(posture, "posture");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.PERSON;
    }

    @Override
    public Optional<String> signal() {
      return Optional.of(of);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.baseline(this);
    }
  }

  /**
   * A reading as it was at the end of the stage before, or of the pause after that one where the
   * stage itself does not read it. Pauses are passed over.
   *
   * @param of which signal
   */
  record PreviousReading(String of) implements Fact {
    public PreviousReading {
      requireNonNull(of, "of");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.READING;
    }

    @Override
    public Optional<String> signal() {
      return Optional.of(of);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.previousReading(this);
    }
  }

  /**
   * A component of the load as it was at the end of the stage before; pauses are passed over.
   *
   * @param name which
   */
  record PreviousLoad(String name) implements Fact {
    public PreviousLoad {
      requireNonNull(name, "name");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.STAGE;
    }

    @Override
    public Optional<String> signal() {
      return Optional.empty();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.previousLoad(this);
    }
  }

  /**
   * A reading as it was when the exercise ended.
   *
   * @param of which signal
   */
  record AtFinish(String of) implements Fact {
    public AtFinish {
      requireNonNull(of, "of");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.READING;
    }

    @Override
    public Optional<String> signal() {
      return Optional.of(of);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.atFinish(this);
    }
  }

  /**
   * A reading that a line of the schedule gave a name.
   *
   * @param name the name
   * @param of which signal
   */
  record Named(String name, String of) implements Fact {
    public Named {
      requireNonNull(name, "name");
      requireNonNull(of, "of");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.READING;
    }

    @Override
    public Optional<String> signal() {
      return Optional.of(of);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.named(this);
    }
  }

  /**
   * A component of the load that is set.
   *
   * @param name which
   */
  record Load(String name) implements Fact {
    public Load {
      requireNonNull(name, "name");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.LOAD;
    }

    @Override
    public Optional<String> signal() {
      return Optional.empty();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.load(this);
    }
  }

  /**
   * A time or a place in the test.
   *
   * @param which which of them
   */
  record Clock(Which which) implements Fact {
    public Clock {
      requireNonNull(which, "which");
    }

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
      RECOVERY_TIME;

      /** Whether it is about the present stage and none before it. */
      public boolean isOfStage() {
        return switch (this) {
          case STAGE_TIME, STAGE_NUMBER, STAGE -> true;
          case TEST_TIME, EXERCISE_TIME, RECOVERY_TIME -> false;
        };
      }
    }

    @Override
    public Dependence dependsOn() {
      return switch (which) {
        case STAGE_TIME, TEST_TIME, EXERCISE_TIME, RECOVERY_TIME -> Dependence.CLOCK;
        case STAGE, STAGE_NUMBER -> Dependence.STAGE;
      };
    }

    @Override
    public Optional<String> signal() {
      return Optional.empty();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.clock(this);
    }
  }

  /**
   * Which round of a block it is; in stages outside the block there is none.
   *
   * @param block the id of the block
   */
  record Round(String block) implements Fact {
    public Round {
      requireNonNull(block, "block");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.STAGE;
    }

    @Override
    public Optional<String> signal() {
      return Optional.empty();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.round(this);
    }
  }

  /**
   * Something about the person.
   *
   * @param which which attribute
   */
  record Attribute(org.gradus.protocol.Attribute which) implements Fact {
    public Attribute {
      requireNonNull(which, "which");
    }

    /** The word rules use for it. */
    public String name() {
      return which.word();
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.PERSON;
    }

    @Override
    public Optional<String> signal() {
      return Optional.empty();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.attribute(this);
    }
  }

  /**
   * An answer to a question.
   *
   * @param question which
   */
  record Answer(String question) implements Fact {
    public Answer {
      requireNonNull(question, "question");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.PERSON;
    }

    @Override
    public Optional<String> signal() {
      return Optional.empty();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.answer(this);
    }
  }

  /**
   * Something that is worked out when the test is over: the aerobic capacity.
   *
   * @param name which
   */
  record Result(String name) implements Fact {
    public Result {
      requireNonNull(name, "name");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.RESULT;
    }

    @Override
    public Optional<String> signal() {
      return Optional.empty();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.result(this);
    }
  }

  /**
   * A sign or symptom.
   *
   * @param name which
   */
  record Reported(String name) implements Fact {
    public Reported {
      requireNonNull(name, "name");
    }

    @Override
    public Dependence dependsOn() {
      return Dependence.SIGN;
    }

    @Override
    public Optional<String> signal() {
      return Optional.empty();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.reported(this);
    }
  }
}
