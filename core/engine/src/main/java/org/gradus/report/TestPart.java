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

/** What was done: the person, the protocol, the readings, the stages, the decisions. */
final class TestPart {

  private final Outcome outcome;
  private final Protocol protocol;
  private final Course course;
  private final Particulars about;
  private final StageTable stages;
  private final References references;

  TestPart(
      Outcome outcome, Course course, Particulars about, Capacity capacity, References references) {
    this.outcome = outcome;
    this.protocol = outcome.protocol();
    this.course = course;
    this.about = about;
    this.stages = new StageTable(outcome, capacity);
    this.references = references;
  }

  Section person() {
    List<Fact> facts = new ArrayList<>();
    about.identity().ifPresent(words -> facts.add(new Fact("identity", words)));
    about.date().ifPresent(words -> facts.add(new Fact("date", words)));
    about.place().ifPresent(words -> facts.add(new Fact("place", words)));
    about.tester().ifPresent(words -> facts.add(new Fact("tester", words)));
    for (Attribute attribute : Attribute.values()) {
      outcome
          .person()
          .value(attribute)
          .ifPresent(value -> facts.add(new Fact(name(attribute), words(attribute, value))));
    }
    return Section.first("Person", List.of(new Facts(facts)));
  }

  private static String name(Attribute attribute) {
    return switch (attribute) {
      case LOWERS_HEART_RATE -> "heart-slowing medicine";
      case CLEARED -> "cleared for this test";
      case MEASURED_MAX_HEART_RATE -> "measured maximal heart rate";
      case AGE, SEX, MASS, HEIGHT -> attribute.word();
    };
  }

  private static String words(Attribute attribute, Quantity value) {
    String truth = value.amount() == 1 ? "yes" : "no";
    return attribute
        .type()
        .match(
            measure -> measure.kind() == Kind.NUMBER ? truth : value.toString(),
            condition -> truth,
            choice -> choice.options().get((int) value.amount()));
  }

  Section course() {
    return Section.first(
        "Heart rate over time",
        List.of(
            course
                .chart(stages.rows())
                .<Block>map(Picture::new)
                .orElse(new Paragraph("No stage was finished."))));
  }

  Section protocol() {
    Heading heading = protocol.heading();
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("title", heading.title()));
    facts.add(new Fact("id and version", heading.id() + " " + heading.version()));
    facts.add(new Fact("ergometer", protocol.instruments().ergometer().title()));
    facts.add(new Fact("purpose", heading.purpose()));
    for (Setting setting : protocol.settings().values()) {
      facts.add(
          new Fact(
              setting.name().replace('_', ' '),
              setting.value() + references.behind(setting.source())));
    }
    facts.add(new Fact("fingerprint", heading.digest()));
    return Section.details("Protocol", List.of(new Facts(facts), new Items(heading.cautions())));
  }

  Section readings() {
    List<Block> blocks = new ArrayList<>();
    List<List<String>> before = new ArrayList<>();
    rows(Phase.BEFORE)
        .forEach(
            (when, words) -> before.add(List.of(when.placed(), Times.clock(when.at()), words)));
    List<List<String>> after = new ArrayList<>();
    rows(Phase.RECOVERY)
        .forEach(
            (when, words) ->
                after.add(List.of(course.sinceTheEnd(when.at()), Times.clock(when.at()), words)));
    if (before.isEmpty() && after.isEmpty()) {
      blocks.add(new Paragraph("Nothing was read before the test or in recovery."));
    }
    if (!before.isEmpty()) {
      blocks.add(
          Table.of("Before the test", List.of("how", "time", "readings and answers"), before));
    }
    if (!after.isEmpty()) {
      blocks.add(
          Table.of(
              "In recovery", List.of("after the exercise", "time", "readings and answers"), after));
    }
    return Section.details("Readings before and after", blocks);
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
                    told -> told.reading().subject().replace('_', ' ') + " " + told.reading(),
                    Collectors.joining(", "))));
  }

  private static String placed(Reading reading) {
    return reading instanceof Reading.Baseline baseline
        ? baseline.posture().name().toLowerCase(java.util.Locale.ROOT)
        : "asked";
  }

  Section stages() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(stages.table());
    stages.chart().ifPresent(chart -> blocks.add(new Picture(chart)));
    return Section.details("Stages", blocks);
  }

  Section decisions() {
    List<List<Block.Cell>> rows = new DecisionRows(course.retold(), references).rows();
    Block table =
        rows.isEmpty()
            ? new Paragraph("Nothing was decided yet.")
            : new Table(
                "What was told and decided, at which time, and why",
                List.of("time", "what", "why"),
                rows);
    return Section.details("Decisions", List.of(table));
  }
}
