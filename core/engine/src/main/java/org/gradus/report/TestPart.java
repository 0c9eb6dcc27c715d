package org.gradus.report;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.gradus.capacity.Capacity;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Heading;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.gradus.report.Block.Fact;
import org.gradus.report.Block.Facts;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Picture;
import org.gradus.report.Block.Table;
import org.gradus.session.Outcome;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Times;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.words.Joined;
import org.gradus.words.Name;

/** What was done: the person, the protocol, the readings, the stages, the decisions. */
final class TestPart {

  private final Outcome outcome;
  private final Protocol protocol;
  private final Course course;
  private final Particulars about;
  private final StageTable stages;
  private final References references;
  private final Words words;

  TestPart(
      Outcome outcome,
      Course course,
      Particulars about,
      Capacity capacity,
      References references,
      Words words) {
    this.outcome = outcome;
    this.protocol = outcome.protocol();
    this.course = course;
    this.about = about;
    this.stages = new StageTable(outcome, capacity, words);
    this.references = references;
    this.words = words;
  }

  Section person() {
    List<Fact> facts = new ArrayList<>();
    about.identity().ifPresent(who -> facts.add(new Fact(words.say(ReportMessage.IDENTITY), who)));
    about.when(words).ifPresent(when -> facts.add(new Fact(words.say(ReportMessage.DATE), when)));
    about.place().ifPresent(where -> facts.add(new Fact(words.say(ReportMessage.PLACE), where)));
    about.tester().ifPresent(by -> facts.add(new Fact(words.say(ReportMessage.TESTER), by)));
    for (Attribute attribute : Attribute.values()) {
      outcome
          .person()
          .value(attribute)
          .ifPresent(
              value -> facts.add(new Fact(words.say(name(attribute)), shown(attribute, value))));
    }
    return Section.first(words.say(ReportMessage.PERSON_TITLE), List.of(new Facts(facts)));
  }

  private static ReportMessage name(Attribute attribute) {
    return switch (attribute) {
      case LOWERS_HEART_RATE -> ReportMessage.LOWERS_HEART_RATE;
      case CLEARED -> ReportMessage.CLEARED;
      case MEASURED_MAX_HEART_RATE -> ReportMessage.MEASURED_MAX_HEART_RATE;
      case AGE -> ReportMessage.AGE;
      case SEX -> ReportMessage.SEX;
      case MASS -> ReportMessage.MASS;
      case HEIGHT -> ReportMessage.HEIGHT;
    };
  }

  private String shown(Attribute attribute, Quantity value) {
    String truth = words.say(value.amount() == 1 ? ReportMessage.YES : ReportMessage.NO);
    return attribute
        .type()
        .match(
            measure -> measure.kind() == Kind.NUMBER ? truth : words.say(value),
            condition -> truth,
            choice -> words.say(sex(choice.options().get((int) value.amount()))));
  }

  private String shown(Setting setting) {
    return words.text(setting.value().toString());
  }

  private static ReportMessage sex(String word) {
    return word.equals("female") ? ReportMessage.FEMALE : ReportMessage.MALE;
  }

  Section course() {
    return Section.first(
        words.say(ReportMessage.COURSE_TITLE),
        List.of(
            course
                .chart(stages.rows())
                .<Block>map(Picture::new)
                .orElse(new Paragraph(words.say(ReportMessage.NO_STAGE)))));
  }

  Section protocol() {
    Heading heading = protocol.heading();
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact(words.say(ReportMessage.PROTOCOL_NAME), words.text(heading.title())));
    facts.add(
        new Fact(words.say(ReportMessage.PROTOCOL_ID), heading.id() + " " + heading.version()));
    facts.add(
        new Fact(
            words.say(ReportMessage.ERGOMETER),
            words.text(protocol.instruments().ergometer().title())));
    facts.add(new Fact(words.say(ReportMessage.PURPOSE), words.text(heading.purpose())));
    for (Setting setting : protocol.settings().values()) {
      facts.add(
          new Fact(
              words.name(setting.name()), shown(setting) + references.behind(setting.source())));
    }
    facts.add(new Fact(words.say(ReportMessage.FINGERPRINT), heading.digest()));
    return Section.details(
        words.say(ReportMessage.PROTOCOL_TITLE),
        List.of(
            new Facts(facts), new Items(heading.cautions().stream().map(words::text).toList())));
  }

  Section readings() {
    List<Block> blocks = new ArrayList<>();
    List<List<String>> before = new ArrayList<>();
    rows(Phase.BEFORE)
        .forEach((when, read) -> before.add(List.of(when.placed(), Times.clock(when.at()), read)));
    List<List<String>> after = new ArrayList<>();
    rows(Phase.RECOVERY)
        .forEach(
            (when, read) ->
                after.add(List.of(course.sinceTheEnd(when.at()), Times.clock(when.at()), read)));
    if (before.isEmpty() && after.isEmpty()) {
      blocks.add(new Paragraph(words.say(ReportMessage.NOTHING_READ)));
    }
    if (!before.isEmpty()) {
      blocks.add(
          Table.of(
              words.say(ReportMessage.BEFORE_TABLE),
              words.heads(
                  ReportMessage.HOW, ReportMessage.TIME, ReportMessage.READINGS_AND_ANSWERS),
              before));
    }
    if (!after.isEmpty()) {
      blocks.add(
          Table.of(
              words.say(ReportMessage.RECOVERY_TABLE),
              words.heads(
                  ReportMessage.AFTER_EXERCISE,
                  ReportMessage.TIME,
                  ReportMessage.READINGS_AND_ANSWERS),
              after));
    }
    return Section.details(words.say(ReportMessage.READINGS_TITLE), blocks);
  }

  /** When, and with the person placed how, readings were taken. */
  private record When(Duration at, String placed) {}

  private Map<When, String> rows(Phase phase) {
    return course.readings(phase).stream()
        .collect(
            Collectors.groupingBy(
                told -> new When(told.taken(), placed(told.reading())),
                LinkedHashMap::new,
                Collectors.mapping(
                    told ->
                        words.say(
                            Joined.PAIR,
                            new Name(told.reading().subject()),
                            told.reading().message()),
                    Collectors.joining(", "))));
  }

  private String placed(Reading reading) {
    return reading instanceof Reading.Baseline baseline
        ? words.say(
            switch (baseline.posture()) {
              case RESTING -> ReportMessage.RESTING;
              case UPRIGHT -> ReportMessage.UPRIGHT;
            })
        : words.say(ReportMessage.ASKED);
  }

  Section stages() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(stages.table());
    stages.chart().ifPresent(chart -> blocks.add(new Picture(chart)));
    return Section.details(words.say(ReportMessage.STAGES_TITLE), blocks);
  }

  Section decisions() {
    List<List<Block.Cell>> rows = new DecisionRows(course.retold(), references, words).rows();
    Block table =
        rows.isEmpty()
            ? new Paragraph(words.say(ReportMessage.NOTHING_DECIDED))
            : new Table(
                words.say(ReportMessage.DECISIONS_TABLE),
                words.heads(ReportMessage.TIME, ReportMessage.WHAT, ReportMessage.WHY),
                rows);
    return Section.details(words.say(ReportMessage.DECISIONS_TITLE), List.of(table));
  }
}
