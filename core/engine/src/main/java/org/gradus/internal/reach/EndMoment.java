package org.gradus.internal.reach;

import java.time.Duration;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Stretch;

/**
 * A moment at which a stage can be due to end.
 *
 * @param due since the start of the stage; of one that is done at a time not known before, since it
 *     was done
 * @param end what has ended the stage
 * @param held whether it has been held
 */
public record EndMoment(Duration due, Stretch.End end, boolean held) {

  /** When the stage has lasted as long as it was planned to, or at most can. */
  static EndMoment planned(Stage stage) {
    return new EndMoment(stage.lasts(), stage.stretch().end(), false);
  }

  /** When it is done, whenever that is. */
  static EndMoment done() {
    return new EndMoment(Duration.ZERO, Stretch.End.DONE, false);
  }

  /** When it is held from here on. */
  EndMoment after(Duration hold) {
    return new EndMoment(due.plus(hold), end, true);
  }

  /** Whether the time since the start of the stage is not known. */
  public boolean isAnyTime() {
    return end == Stretch.End.DONE;
  }

  /** In words, behind the name of the stage. */
  public String words() {
    String what =
        switch (end) {
          case PLANNED -> "";
          case OPEN -> " when it is not done in time";
          case DONE -> " when it is done";
        };
    return what + (held ? " after a hold" : "");
  }
}
