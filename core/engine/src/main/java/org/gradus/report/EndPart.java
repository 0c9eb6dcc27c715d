package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Clearance;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Warning;
import org.gradus.session.Because;
import org.gradus.session.Ending;
import org.gradus.session.Event;
import org.gradus.session.Outcome;
import org.gradus.session.Retold;
import org.gradus.session.StageResult;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** How a test ended and why; an alarming stop before everything else. */
final class EndPart {

  private final Outcome outcome;
  private final Capacity capacity;
  private final Course course;
  private final References references;

  EndPart(Outcome outcome, Capacity capacity, Course course, References references) {
    this.outcome = outcome;
    this.capacity = capacity;
    this.course = course;
    this.references = references;
  }

  Section section() {
    List<Block> blocks = new ArrayList<>();
    Optional<Retold> end = course.end();
    String after = outcome.ending().map(how -> " " + after(how)).orElse("");
    if (end.isEmpty()) {
      blocks.add(new Paragraph(before()));
    } else if (Course.isStop(end.get()) || capacity.clearance() != Clearance.NOT_NEEDED) {
      blocks.add(new Warning("Stopped", exercise(end.get()) + after));
    } else {
      blocks.add(new Paragraph(exercise(end.get()) + after));
    }
    if (capacity.clearance() == Clearance.GIVEN) {
      blocks.add(new Paragraph("The person has been cleared for exercise since."));
    }
    return Section.first("How the test ended", blocks);
  }

  private String before() {
    return outcome
        .ending()
        .map(how -> "The exercise did not begin. The test ended: " + words(how) + ".")
        .orElse("The test is not over.");
  }

  private String exercise(Retold end) {
    StringBuilder words =
        new StringBuilder("The exercise ended at ")
            .append(Times.clock(end.event().at()))
            .append(stage(end))
            .append(" with ")
            .append(Course.word(end));
    List<String> signs = course.signs(end.number());
    if (!signs.isEmpty()) {
      words
          .append(" for ")
          .append(String.join(", ", signs.stream().map(sign -> sign.replace('_', ' ')).toList()));
    }
    words.append(reason(end));
    return words.toString();
  }

  private String stage(Retold end) {
    Optional<StageResult> last =
        outcome.stages().stream()
            .filter(stage -> stage.start().plus(stage.lasted()).equals(end.event().at()))
            .reduce((first, later) -> later);
    return last.map(stage -> ", " + Times.clock(stage.lasted()) + " into " + stage.id() + ",")
        .orElse("");
  }

  private String reason(Retold end) {
    if (end.event() instanceof Event.Followed followed) {
      String instruction =
          followed.verdict() instanceof Verdict.Stop stop && !stop.instruction().isEmpty()
              ? " The instruction was: " + Words.sentence(stop.instruction())
              : "";
      return ": " + end.before().because().map(this::reason).orElse("planned end.") + instruction;
    }
    return ", as the tester decided: " + Words.sentence(end.event().reason());
  }

  private String reason(Because because) {
    String shortly = because.shortly();
    String whole = because.why().isEmpty() ? "rule " + because.rule() + ", " + shortly : shortly;
    String plain = whole.endsWith(".") ? whole.substring(0, whole.length() - 1) : whole;
    return plain + references.behind(because.source()) + ".";
  }

  private static String after(Ending how) {
    return switch (how) {
      case RECOVERED -> "The person recovered.";
      case NOT_RECOVERED -> "The person had not recovered when the limit was reached.";
      case EMERGENCY -> "A stop during recovery ended the test as an emergency.";
      case DONE -> "The protocol has no recovery.";
      case ABANDONED -> "The tester broke the test off.";
      case DEFERRED -> "The person was not tested.";
    };
  }

  private static String words(Ending ending) {
    return ending.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
