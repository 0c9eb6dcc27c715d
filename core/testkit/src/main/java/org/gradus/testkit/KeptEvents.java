package org.gradus.testkit;

import java.util.List;
import org.gradus.session.Event;

/** Events are only ever added. */
final class KeptEvents implements Watch {

  @Override
  public void after(Moment moment) {
    List<Event> before = moment.before();
    List<Event> after = moment.after();
    boolean grows = after.size() == before.size() || after.size() == before.size() + 1;
    boolean keeps = grows && after.subList(0, before.size()).equals(before);
    if (!keeps || !isAsSaid(moment)) {
      throw new AssertionError(after + "\n       after: " + before);
    }
  }

  private static boolean isAsSaid(Moment moment) {
    if (moment.answer().isPresent() && moment.step() instanceof Step.Tell tell) {
      return moment.told().filter(tell.event()::equals).isPresent();
    }
    return moment.told().filter(event -> !event.at().equals(moment.step().at())).isEmpty();
  }
}
