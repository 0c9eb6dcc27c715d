package org.gradus.session;

import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A rule that applies by readings which have to be taken a second time. Only a new reading of what
 * made it apply confirms it; where it applies without any reading there is nothing to confirm.
 *
 * @param waits the signals that made it apply, each with the moment from which it counts without a
 *     second reading
 * @param anew those of them that have been read again since
 * @param agreed whether it applies by second readings alone
 */
record SecondReading(Map<String, Duration> waits, Set<String> anew, boolean agreed) {

  private static final SecondReading NEW = new SecondReading(Map.of(), Set.of(), false);

  SecondReading {
    waits = Map.copyOf(waits);
    anew = Set.copyOf(anew);
  }

  /**
   * After another look at the rule, which applies.
   *
   * @param before as it was before; empty: the rule did not apply
   * @param grounds the readings that make it apply now
   * @param news what was just read
   * @param until until when what makes it apply for the first time is waited for
   */
  static SecondReading after(
      Optional<SecondReading> before, Grounds grounds, Set<String> news, Duration until) {
    SecondReading old = before.orElse(NEW);
    Map<String, Duration> waits = new HashMap<>();
    Set<String> anew = new HashSet<>();
    Set<String> rests = grounds.signals();
    for (String signal : rests) {
      waits.put(signal, old.waits.getOrDefault(signal, until));
      boolean again = old.waits.containsKey(signal) && news.contains(signal);
      if (again || old.anew.contains(signal)) {
        anew.add(signal);
      }
    }
    return new SecondReading(waits, anew, old.agreed || rests.isEmpty() || grounds.holdsBy(anew));
  }

  /** The signals to be read a second time, in order of the alphabet. */
  List<String> awaited() {
    return waits.keySet().stream().filter(signal -> !anew.contains(signal)).sorted().toList();
  }

  /** From when on it counts without a second reading. */
  Duration until() {
    return awaited().stream()
        .flatMap(signal -> Optional.ofNullable(waits.get(signal)).stream())
        .min(Duration::compareTo)
        .orElse(Duration.ZERO);
  }

  /** Whether it counts at a time. */
  boolean counts(Duration time) {
    return agreed || time.compareTo(until()) >= 0;
  }
}
