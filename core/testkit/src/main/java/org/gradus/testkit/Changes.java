package org.gradus.testkit;

import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Verdict;

/** A reading is not compared with itself. */
final class Changes implements Watch {

  // As an explanation shows it once it is known: change(heart_rate, 60 s) [4 bpm].
  private static final Pattern KNOWN =
      Pattern.compile("(?:change|earlier)\\((\\w+), [^)]*\\) \\[-?[0-9]");

  private final Map<String, Set<Duration>> everTaken = new HashMap<>();
  private final Map<String, Set<Duration>> takenInThisStage = new HashMap<>();
  // What is put right in an earlier stage can raise a stop that compares readings of that stage.
  private boolean putRight;

  @Override
  public void after(Moment moment) {
    if (moment.step() instanceof Step.Tell tell
        && tell.event() instanceof Event.Read read
        && moment.refusal().isEmpty()) {
      for (Reading reading : read.readings()) {
        for (Map<String, Set<Duration>> taken : List.of(everTaken, takenInThisStage)) {
          taken.computeIfAbsent(reading.subject(), name -> new HashSet<>()).add(read.taken());
        }
      }
    }
    putRight |= moment.told().filter(Changes::changesTheRecord).isPresent();
    moment.answer().flatMap(Decision::because).ifPresent(this::look);
    if (moment.told().flatMap(Changes::decided).filter(Changes::leads).isPresent()) {
      takenInThisStage.clear();
    }
  }

  private static boolean changesTheRecord(Event event) {
    return event instanceof Event.Amended || event instanceof Event.Rejected;
  }

  private static Optional<Verdict> decided(Event event) {
    if (event instanceof Event.Followed followed) {
      return Optional.of(followed.verdict());
    }
    return event instanceof Event.Overridden overridden
        ? Optional.of(overridden.verdict())
        : Optional.empty();
  }

  // Into another stage, or into recovery: what was read before does not count there.
  private static boolean leads(Verdict verdict) {
    return !(verdict instanceof Verdict.Hold || verdict instanceof Verdict.Continue);
  }

  private void look(Because because) {
    String filled = because.filled().map(Object::toString).orElse("");
    Matcher known = KNOWN.matcher(filled);
    while (known.find()) {
      Map<String, Set<Duration>> taken = putRight ? everTaken : takenInThisStage;
      int readings = taken.getOrDefault(known.group(1), Set.of()).size();
      Watch.demand(readings >= 2, filled + " rests on " + readings + " readings");
    }
  }
}
