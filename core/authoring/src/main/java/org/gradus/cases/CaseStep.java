package org.gradus.cases;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Something that happens in a case, with what must be answered.
 *
 * @param name a name by which a later step may put it right, or empty
 * @param at when
 * @param action what happens
 * @param instead whether it happens instead of the step before, and is then forgotten
 * @param answer what must be answered
 */
public record CaseStep(String name, CaseTime at, Action action, boolean instead, Answer answer) {
  public CaseStep {
    requireNonNull(action, "action");
    requireNonNull(answer, "answer");
    requireNonNull(at, "at");
    requireNonNull(name, "name");
  }

  /** What can happen. */
  public sealed interface Action {

    /**
     * Readings and answers are told.
     *
     * @param readings their texts, by name
     * @param taken when they were taken, if not just now
     */
    record Tell(Map<String, String> readings, Optional<CaseTime> taken) implements Action {
      public Tell {
        requireNonNull(readings, "readings");
        requireNonNull(taken, "taken");
        readings = Map.copyOf(readings);
      }
    }

    /**
     * A pulse is counted.
     *
     * @param beats how many beats
     * @param over for how long
     * @param taken when the count ended, if not just now
     */
    record Count(int beats, Duration over, Optional<CaseTime> taken) implements Action {
      public Count {
        requireNonNull(over, "over");
        requireNonNull(taken, "taken");
      }
    }

    /**
     * A sign is reported.
     *
     * @param sign which
     * @param grade its grade, if it is graded
     */
    record Report(String sign, OptionalInt grade) implements Action {
      public Report {
        requireNonNull(grade, "grade");
        requireNonNull(sign, "sign");
      }
    }

    /**
     * A sign is over.
     *
     * @param sign which
     */
    record Withdraw(String sign) implements Action {
      public Withdraw {
        requireNonNull(sign, "sign");
      }
    }

    /**
     * A load is set otherwise than planned.
     *
     * @param load the texts of its components, by name
     */
    record Load(Map<String, String> load) implements Action {
      public Load {
        requireNonNull(load, "load");
        load = Map.copyOf(load);
      }
    }

    /**
     * What was to be done is done.
     *
     * @param taken when, if not just now
     */
    record Done(Optional<CaseTime> taken) implements Action {
      public Done {
        requireNonNull(taken, "taken");
      }
    }

    /**
     * A reading told before is put right.
     *
     * @param step the name of the step that told it
     * @param readings what it should have been, by name
     */
    record Amend(String step, Map<String, String> readings) implements Action {
      public Amend {
        requireNonNull(readings, "readings");
        requireNonNull(step, "step");
        readings = Map.copyOf(readings);
      }
    }

    /**
     * Something told before is taken back.
     *
     * @param step the name of the step that told it
     * @param subject the signal, question or sign
     */
    record Reject(String step, String subject) implements Action {
      public Reject {
        requireNonNull(step, "step");
        requireNonNull(subject, "subject");
      }
    }

    /**
     * The verdict of the moment is followed, or what is offered instead.
     *
     * @param offered the word of what is offered; empty for the verdict itself
     */
    record Follow(String offered) implements Action {
      public Follow {
        requireNonNull(offered, "offered");
      }
    }

    /**
     * The tester decides otherwise.
     *
     * @param verdict the word of the verdict
     * @param to the stage, where it leads to one
     * @param until until when, where it lasts
     */
    record Overrule(String verdict, String to, Optional<CaseTime> until) implements Action {
      public Overrule {
        requireNonNull(to, "to");
        requireNonNull(until, "until");
        requireNonNull(verdict, "verdict");
      }
    }

    /** The test is broken off. */
    record Abandon() implements Action {}

    /** Nothing happens; it is only asked. */
    record Ask() implements Action {}
  }

  /**
   * What must be answered. What is empty is not looked at.
   *
   * @param then the word of the verdict
   * @param to the stage it leads to
   * @param until until when it lasts
   * @param load parts of the load it shows, by name; none at all when no load must be shown
   * @param rule the rule behind it
   * @param rules every reason of a deferral
   * @param offers the words of everything offered
   * @param asks what is to be measured: names, each perhaps with {@code at m:ss}
   * @param cautions the rules that caution
   * @param unchecked the rules that could not be checked
   * @param firm whether it is firm
   * @param refused the code with which the step is refused
   */
  public record Answer(
      Optional<String> then,
      Optional<String> to,
      Optional<CaseTime> until,
      Optional<Map<String, String>> load,
      Optional<String> rule,
      Optional<List<String>> rules,
      Optional<List<String>> offers,
      Optional<List<String>> asks,
      Optional<List<String>> cautions,
      Optional<List<String>> unchecked,
      Optional<Boolean> firm,
      Optional<String> refused) {

    public Answer {
      requireNonNull(asks, "asks");
      requireNonNull(cautions, "cautions");
      requireNonNull(firm, "firm");
      requireNonNull(offers, "offers");
      requireNonNull(refused, "refused");
      requireNonNull(rule, "rule");
      requireNonNull(rules, "rules");
      requireNonNull(then, "then");
      requireNonNull(to, "to");
      requireNonNull(unchecked, "unchecked");
      requireNonNull(until, "until");
      load = load.map(Map::copyOf);
    }
  }
}
