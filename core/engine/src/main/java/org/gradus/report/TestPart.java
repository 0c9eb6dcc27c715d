package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Heading;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.gradus.report.Block.Fact;
import org.gradus.report.Block.Facts;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Picture;
import org.gradus.report.Block.Table;
import org.gradus.report.Block.Warning;
import org.gradus.session.Ending;
import org.gradus.session.Event;
import org.gradus.session.Outcome;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** What was done: the person, the protocol, the stages, the decisions. */
final class TestPart {

  private final Outcome outcome;
  private final Protocol protocol;
  private final List<Event> events;
  private final Optional<String> identity;
  private final StageTable stages;

  TestPart(Outcome outcome, List<Event> events, Optional<String> identity, Capacity capacity) {
    this.outcome = outcome;
    this.protocol = outcome.protocol();
    this.events = events;
    this.identity = identity;
    this.stages = new StageTable(outcome, capacity);
  }

  Section person() {
    List<Fact> facts = new ArrayList<>();
    identity.ifPresent(words -> facts.add(new Fact("identity", words)));
    for (Attribute attribute : Attribute.values()) {
      outcome
          .person()
          .value(attribute)
          .ifPresent(
              value ->
                  facts.add(new Fact(attribute.word().replace('_', ' '), words(attribute, value))));
    }
    return new Section("Person", List.of(new Facts(facts)));
  }

  private static String words(Attribute attribute, Quantity value) {
    if (attribute.type() instanceof Type.Choice choice) {
      return choice.options().get((int) value.amount());
    }
    boolean number =
        attribute.type() instanceof Type.Measure measure && measure.kind() != Kind.NUMBER;
    return number ? value.toString() : value.amount() == 1 ? "yes" : "no";
  }

  Section protocol() {
    Heading heading = protocol.heading();
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("title", heading.title()));
    facts.add(new Fact("id and version", heading.id() + " " + heading.version()));
    facts.add(new Fact("ergometer", protocol.instruments().ergometer().title()));
    facts.add(new Fact("purpose", heading.purpose()));
    for (Setting setting : protocol.settings().values()) {
      facts.add(new Fact(setting.name().replace('_', ' '), setting.value().toString()));
    }
    facts.add(new Fact("fingerprint", heading.digest()));
    return new Section("Protocol", List.of(new Facts(facts)));
  }

  Section stages() {
    List<Block> blocks = new ArrayList<>();
    outcome
        .ending()
        .ifPresent(how -> blocks.add(new Paragraph("The test ended: " + words(how) + ".")));
    if (outcome.stopped()) {
      blocks.add(new Warning("The exercise was ended by a stop."));
    }
    blocks.add(stages.table());
    stages.chart().ifPresent(chart -> blocks.add(new Picture(chart)));
    return new Section("Stages", blocks);
  }

  Section decisions() {
    List<List<String>> rows = new DecisionRows(outcome, events).rows();
    Block table =
        rows.isEmpty()
            ? new Paragraph("Nothing was decided yet.")
            : new Table(
                "What was told and decided, at which time, and why",
                List.of("time", "what", "why"),
                rows);
    return new Section("Decisions", List.of(table));
  }

  private static String words(Ending ending) {
    return ending.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
