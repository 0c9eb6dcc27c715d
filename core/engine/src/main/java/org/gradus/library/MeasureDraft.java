package org.gradus.library;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.MeasureLine;

/**
 * A line of a schedule with the places of the names in it.
 *
 * @param line the line, but for its times
 * @param in the stages in which it is read, as they were written; none: all
 * @param times the times that are written in it, by key
 */
record MeasureDraft(
    MeasureLine line,
    List<Scalar> read,
    Optional<Scalar> scale,
    Optional<Scalar> named,
    List<Scalar> in,
    Map<String, Time> times) {

  /** The farthest that a reading may lie from when it is due, where a line does not say. */
  static final Duration WITHIN = Duration.ofSeconds(15);

  /**
   * A time of a line.
   *
   * @param written a time, or the name of the setting that gives it
   * @param said the time that is written; none: a setting gives it
   */
  record Time(Scalar written, Optional<Duration> said) {}

  /** The same line, read in these stages. */
  MeasureDraft in(List<Scalar> stages) {
    return new MeasureDraft(line, read, scale, named, stages, times);
  }

  /** Finds the time that a setting gives. */
  interface Settings {
    Optional<Duration> of(Scalar setting);
  }

  /** A time that does not fit its line; what to compare it with is said in words. */
  interface Misfit {
    void found(Scalar written, String limit);
  }

  /** The line with its times. */
  MeasureLine with(Settings settings) {
    Duration within = time("within", settings).orElse(WITHIN);
    return new MeasureLine(
        line.signals(),
        line.timing(),
        time("over", settings).orElse(Duration.ZERO),
        time("takes", settings).orElse(Duration.ZERO),
        within,
        time("late", settings).orElse(within),
        time("valid_for", settings),
        line.ifMissing(),
        line.scale(),
        line.named(),
        line.posture(),
        line.in());
  }

  private Optional<Duration> time(String key, Settings settings) {
    return Optional.ofNullable(times.get(key))
        .flatMap(time -> time.said().or(() -> settings.of(time.written())));
  }

  /**
   * Looks for times that do not fit: a reading that takes longer than there is time for, or stays
   * valid beyond the next one, is a mistake in a unit or a digit.
   *
   * @param complete the line with its times
   */
  void fits(MeasureLine complete, Misfit misfit) {
    Optional<Duration> room =
        complete
            .timing()
            .match(
                each -> {
                  complete
                      .validFor()
                      .filter(valid -> valid.compareTo(each.every()) > 0)
                      .ifPresent(
                          valid -> tooLong("valid_for", "the time to the next reading", misfit));
                  return Optional.of(
                      each.every().compareTo(each.from()) < 0 ? each.every() : each.from());
                },
                at -> Optional.of(at.time()),
                before -> {
                  if (!before.lead().isZero() && complete.takes().compareTo(before.lead()) > 0) {
                    tooLong("takes", "the time before the end", misfit);
                  }
                  return Optional.empty();
                },
                done -> Optional.empty());
    String limit = "the time before it is due";
    room.filter(time -> complete.over().compareTo(time) > 0)
        .ifPresent(time -> tooLong("over", limit, misfit));
    room.filter(time -> complete.takes().compareTo(time) > 0 && !time.isZero())
        .ifPresent(time -> tooLong("takes", limit, misfit));
  }

  private void tooLong(String key, String limit, Misfit misfit) {
    Optional.ofNullable(times.get(key)).ifPresent(time -> misfit.found(time.written(), limit));
  }
}
