package org.gradus.bundled;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.EstimateLine.PublishedError;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Timing;

/**
 * What a protocol prescribes besides its rules, in words.
 *
 * @param ages for whom it is
 * @param stages what is read in stages
 * @param recovery what is done and read in recovery, and its limit
 * @param errors the published errors of its estimates, and their models
 * @param possible what loads can be at all
 */
record Prescription(
    String ages,
    List<String> stages,
    List<String> recovery,
    List<String> errors,
    List<String> possible) {

  private static final Duration USUAL_WITHIN = Duration.ofSeconds(15);

  static Prescription of(Protocol protocol) {
    Eligibility who = protocol.eligibility();
    List<String> recovery = new ArrayList<>();
    protocol
        .recovery()
        .ifPresent(
            after -> {
              after.stages().forEach(stage -> recovery.add(stage(stage)));
              after.schedule().lines().forEach(line -> recovery.add(line(line)));
              recovery.add("at most " + time(after.atMost()));
            });
    return new Prescription(
        who.youngest()
            + "-"
            + who.oldest()
            + " "
            + String.join(" ", who.needs().stream().sorted().toList())
            + " "
            + who.outside().name().toLowerCase(Locale.ROOT),
        protocol.schedule().lines().stream().map(Prescription::line).toList(),
        recovery,
        protocol.assessment().estimates().stream()
            .flatMap(
                estimate ->
                    Stream.concat(
                        estimate.error().stream().map(e -> estimate.id() + " " + sd(e)),
                        estimate.model().stream()
                            .map(model -> estimate.id() + " model " + model.id())))
            .toList(),
        protocol.instruments().loads().values().stream()
            .map(load -> load.name() + " " + load.range())
            .toList());
  }

  /** The settings of a protocol, each with what it is and what it can be. */
  static List<String> settings(Protocol protocol) {
    return protocol.settings().values().stream()
        .map(setting -> setting.name() + " " + setting.value() + " of " + setting.allowed())
        .toList();
  }

  private static String stage(Stage stage) {
    StringBuilder text = new StringBuilder(stage.id() + " " + time(stage.lasts()));
    stage
        .loads()
        .forEach(
            load -> text.append(" ").append(load.name()).append(" ").append(load.value().text()));
    return text.toString();
  }

  private static String sd(PublishedError error) {
    return error.sd().toString();
  }

  private static String line(MeasureLine line) {
    StringBuilder text = new StringBuilder(String.join(" ", line.signals()));
    Timing due = line.timing();
    if (due instanceof Timing.Each each) {
      text.append(" each ").append(time(each.every()));
      text.append(each.from().equals(each.every()) ? "" : " from " + time(each.from()));
    } else if (due instanceof Timing.At at) {
      text.append(" at ").append(time(at.time()));
    } else if (due instanceof Timing.BeforeEnd before) {
      text.append(" before_end ").append(time(before.lead()));
    } else {
      text.append(" at done");
    }
    text.append(line.over().isZero() ? "" : " over " + time(line.over()));
    text.append(line.takes().isZero() ? "" : " takes " + time(line.takes()));
    text.append(line.within().equals(USUAL_WITHIN) ? "" : " within " + time(line.within()));
    text.append(line.late().equals(line.within()) ? "" : " late " + time(line.late()));
    line.validFor().ifPresent(valid -> text.append(" valid ").append(time(valid)));
    line.named().ifPresent(name -> text.append(" as ").append(name));
    line.scale().ifPresent(scale -> text.append(" by ").append(scale));
    text.append(line.in().isEmpty() ? "" : " in " + line.in().get(0) + " and so on");
    return text + " " + line.ifMissing().name().toLowerCase(Locale.ROOT);
  }

  private static String time(Duration time) {
    boolean whole = !time.isZero() && time.toSeconds() % 60 == 0;
    return whole ? time.toMinutes() + " min" : time.toSeconds() + " s";
  }
}
