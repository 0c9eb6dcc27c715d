package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.answer.Diagram;
import org.gradus.rule.plan.Frame;

/**
 * A definition that a rule of a protocol uses, directly or not.
 *
 * @param name its name
 * @param text what it stands for
 * @param source where it comes from
 */
record Defined(String name, String text, Citation source) {

  /** All of a protocol, in the order of their use. */
  static List<Defined> of(Protocol protocol) {
    Frame nothingKnown = new Frame(protocol.wiring().layout());
    Map<String, String> texts = new LinkedHashMap<>();
    rules(protocol)
        .flatMap(rule -> rule.rule().diagram(nothingKnown, 0).figures().stream())
        .filter(figure -> !figure.name().isEmpty())
        .forEach(figure -> texts.putIfAbsent(figure.name(), text(figure)));
    List<Defined> all = new ArrayList<>();
    texts.forEach(
        (name, text) -> all.add(new Defined(name, text, protocol.wiring().citation(name))));
    return all;
  }

  private static String text(Diagram.Figure figure) {
    return figure.lines().get(0);
  }

  private static Stream<ProtocolRule> rules(Protocol protocol) {
    return Stream.of(
            protocol.rules().before().stream(),
            protocol.rules().anyTime().stream(),
            protocol.rules().stageEnd().stream(),
            protocol.stages().stream()
                .flatMap(stage -> stage.ownRules().stream())
                .flatMap(List::stream),
            protocol.rules().recovery().stream(),
            protocol.rules().result().stream())
        .flatMap(rules -> rules);
  }
}
