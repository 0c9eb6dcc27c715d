package org.gradus.internal.reach;

import java.util.Optional;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Layout;

/**
 * What a load can rest on when it is set: boxes for the abstract evaluator. They are wider than
 * those of a {@link Scene}, which trusts that nobody starts against a defer and that every needed
 * answer is given: a tester may begin all the same, and what is set must be possible then, too.
 */
public final class LoadScene {

  private final Protocol protocol;
  private final Layout layout;
  private final Possible possible;

  /**
   * The scene of a protocol.
   *
   * @param layout the slots; they may ask for settings, which then have any value that the file
   *     allows
   */
  public LoadScene(Protocol protocol, Layout layout) {
    this.protocol = protocol;
    this.layout = layout;
    this.possible = new Possible(protocol);
  }

  /** When a stage of the exercise begins. */
  public Box start(Stage stage) {
    return Box.onDemand(layout, (slot, demand) -> cell(demand, Optional.of(stage)));
  }

  /** When a stage of recovery begins. */
  public Box recovery() {
    return Box.onDemand(layout, (slot, demand) -> cell(demand, Optional.empty()));
  }

  /** With a component of the load set, on which the components after it may rest. */
  public Box with(Stage.Load load, Cell value, Box box) {
    Box loaded = box;
    for (int slot = 0; slot < layout.size(); slot++) {
      Demand demand = layout.demands().get(slot);
      if (demand.aspect() == Aspect.VALUE && demand.subject().equals(load.name())) {
        loaded = loaded.with(slot, value);
      }
    }
    return loaded;
  }

  private Cell cell(Demand demand, Optional<Stage> stage) {
    return switch (demand.aspect()) {
      case EVER, COMPLETED -> Box.anything(demand.type());
      case COUNT -> Cell.between(0, protocol.stages().size());
      case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED ->
          Box.anything(demand.type()).with(Presence.MAYBE);
      case EARLIER, AVERAGE, HIGHEST, LOWEST ->
          possible.values(protocol.wiring().fact(demand), demand.type()).with(Presence.MAYBE);
      case VALUE ->
          protocol.settings().containsKey(demand.subject())
              ? possible.setting(demand.subject(), demand.type())
              : value(protocol.wiring().fact(demand), demand, stage);
    };
  }

  private Cell value(Fact fact, Demand demand, Optional<Stage> stage) {
    if (fact instanceof Fact.Clock clock && stage.isPresent()) {
      switch (clock.which()) {
        case STAGE -> {
          return Possible.option(stage.get().place());
        }
        case STAGE_NUMBER -> {
          return Cell.between(stage.get().isCounted() ? 1 : 0, stage.get().place() + 1);
        }
        case STAGE_TIME -> {
          return Cell.between(0, 0);
        }
        case TEST_TIME, EXERCISE_TIME, RECOVERY_TIME -> {
          // It may be any time.
        }
      }
    }
    if (fact instanceof Fact.Round round && stage.isPresent()) {
      return Possible.round(round, stage.get());
    }
    // Without what it needs to know of the person no session is opened.
    boolean known =
        fact instanceof Fact.Attribute attribute
            && protocol.eligibility().needs().contains(attribute.name());
    return possible.values(fact, demand.type()).with(known ? Presence.KNOWN : Presence.MAYBE);
  }
}
