package org.gradus.session;

import java.time.Duration;
import java.util.List;
import org.gradus.protocol.Stage;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;

/** Works out the load of a stage that is about to begin. */
final class Loads {

  private Loads() {}

  static List<Loading> of(Course course, Stage stage, Duration at) {
    Frame frame = Sight.atDue(course, Passage.begin(stage, List.of(), at), Duration.ZERO);
    return stage.loads().stream()
        .filter(load -> !Double.isNaN(load.value().value(frame)))
        .map(
            load ->
                new Loading(load.name(), Quantity.ofBase(load.value().value(frame), load.unit())))
        .toList();
  }
}
