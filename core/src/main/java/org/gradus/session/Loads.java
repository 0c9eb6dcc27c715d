package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.gradus.protocol.Stage;
import org.gradus.unit.Quantity;

/** Works out the load of a stage that is about to begin. */
final class Loads {

  private Loads() {}

  static List<Loading> of(Course course, Stage stage, Duration at) {
    // A component may rest on those before it: a grade on the speed it is walked at.
    List<Loading> loads = new ArrayList<>();
    for (Stage.Load load : stage.loads()) {
      Passage beginning = Passage.begin(stage, List.copyOf(loads), at);
      double value = load.value().value(Sight.atDue(course, beginning, Duration.ZERO));
      if (!Double.isNaN(value)) {
        loads.add(new Loading(load.name(), Quantity.ofBase(value, load.unit())));
      }
    }
    return List.copyOf(loads);
  }
}
