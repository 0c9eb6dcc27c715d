package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
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
import org.gradus.session.Times;
import org.gradus.session.Verdict;
import org.gradus.words.FileText;
import org.gradus.words.Name;

/** How a test ended and why; an alarming stop before everything else. */
final class EndPart {

  private final Outcome outcome;
  private final Capacity capacity;
  private final Course course;
  private final References references;
  private final Words words;

  EndPart(Outcome outcome, Capacity capacity, Course course, References references, Words words) {
    this.outcome = outcome;
    this.capacity = capacity;
    this.course = course;
    this.references = references;
    this.words = words;
  }

  Section section() {
    List<Block> blocks = new ArrayList<>();
    Optional<Retold> end = course.end();
    String after = outcome.ending().map(how -> " " + words.say(after(how))).orElse("");
    if (end.isEmpty()) {
      blocks.add(new Paragraph(before()));
    } else if (Course.isStop(end.get()) || capacity.clearance() != Clearance.NOT_NEEDED) {
      blocks.add(new Warning(words.say(ReportMessage.STOPPED), exercise(end.get()) + after));
    } else {
      blocks.add(new Paragraph(exercise(end.get()) + after));
    }
    if (capacity.clearance() == Clearance.GIVEN) {
      blocks.add(new Paragraph(words.say(ReportMessage.CLEARED_SINCE)));
    }
    return Section.first(words.say(ReportMessage.ENDED_TITLE), blocks);
  }

  private String before() {
    return outcome
        .ending()
        .map(how -> words.say(ReportMessage.NOT_BEGUN, how.message()))
        .orElse(words.say(ReportMessage.NOT_OVER));
  }

  private String exercise(Retold end) {
    String ended = ended(end);
    List<Name> signs = course.signs(end.number()).stream().map(Name::new).toList();
    return because(end, signs.isEmpty() ? ended : words.say(ReportMessage.ENDED_FOR, ended, signs));
  }

  private String ended(Retold end) {
    String at = Times.clock(end.event().at());
    Object what = course.what(end);
    return outcome.stages().stream()
        .filter(stage -> stage.start().plus(stage.lasted()).equals(end.event().at()))
        .reduce((first, later) -> later)
        .map(
            stage ->
                words.say(
                    ReportMessage.ENDED_IN,
                    at,
                    Times.clock(stage.lasted()),
                    new FileText(stage.id()),
                    what))
        .orElseGet(() -> words.say(ReportMessage.ENDED_AT, at, what));
  }

  private String because(Retold end, String ended) {
    if (end.event() instanceof Event.Followed followed) {
      String reason =
          end.before()
              .because()
              .map(this::reason)
              .orElseGet(() -> words.say(ReportMessage.PLANNED_END));
      String instruction =
          followed.verdict() instanceof Verdict.Stop stop && !stop.instruction().isEmpty()
              ? " "
                  + words.say(
                      ReportMessage.INSTRUCTION_WAS, Words.sentence(words.text(stop.instruction())))
              : "";
      return words.say(ReportMessage.ENDED_BECAUSE, ended, reason) + instruction;
    }
    return words.say(ReportMessage.ENDED_AS_DECIDED, ended, Words.sentence(end.event().reason()));
  }

  private String reason(Because because) {
    String shortly = words.say(because.message());
    String whole =
        because.why().isEmpty()
            ? words.say(ReportMessage.RULE_SAYS, because.rule(), shortly)
            : shortly;
    String plain = whole.endsWith(".") ? whole.substring(0, whole.length() - 1) : whole;
    return plain + references.behind(because.source()) + ".";
  }

  private static ReportMessage after(Ending how) {
    return switch (how) {
      case RECOVERED -> ReportMessage.AFTER_RECOVERED;
      case NOT_RECOVERED -> ReportMessage.AFTER_NOT_RECOVERED;
      case EMERGENCY -> ReportMessage.AFTER_EMERGENCY;
      case DONE -> ReportMessage.AFTER_DONE;
      case ABANDONED -> ReportMessage.AFTER_ABANDONED;
      case DEFERRED -> ReportMessage.AFTER_DEFERRED;
    };
  }
}
