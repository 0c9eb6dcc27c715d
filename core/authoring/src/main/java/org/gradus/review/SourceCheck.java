package org.gradus.review;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.AuthorNotes.Dropped;
import org.gradus.protocol.AuthorNotes.Replaced;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.Expression.Literal;

/** Figures without a source, conditions that can be misread, and what became of included parts. */
final class SourceCheck {

  private final Protocol protocol;
  private final List<ReviewFinding> found;

  SourceCheck(Protocol protocol, List<ReviewFinding> found) {
    this.protocol = protocol;
    this.found = found;
  }

  private static boolean hasFigure(Action action) {
    return switch (action.kind()) {
      case HOLD, CHANGE -> true;
      case STOP, FINISH, ADVANCE, OFFER, CAUTION, DEFER, START_AT, END -> false;
    };
  }

  void look() {
    protocol
        .notes()
        .mixed()
        .forEach(
            (id, part) ->
                found.add(
                    new ReviewFinding(
                        Check.MIXED_AND_OR,
                        id,
                        part,
                        id + " joins this part before the or beside it",
                        "",
                        0)));
    Map<String, List<Literal>> definitions = new LinkedHashMap<>();
    for (ProtocolParts.Grouped grouped : ProtocolParts.rules(protocol)) {
      ProtocolRule rule = grouped.rule();
      rule.rule().condition().ifPresent(when -> definitions.putAll(when.anatomy().definitions()));
      boolean figures =
          rule.rule().condition().filter(when -> !when.anatomy().figures().isEmpty()).isPresent()
              || hasFigure(rule.action());
      if (figures && !rule.source().isNamed()) {
        add(rule.id(), rule.rule().sentence().span(), "the rule " + rule.id());
      }
    }
    definitions.forEach(
        (name, figures) -> {
          Citation source = protocol.wiring().citation(name);
          boolean own = protocol.notes().places().containsKey("define " + name);
          if (own && !figures.isEmpty() && !source.isNamed()) {
            add(name, protocol.notes().place("define " + name), "the definition " + name);
          }
        });
    protocol
        .settings()
        .forEach(
            (name, setting) -> {
              if (!setting.source().isNamed()) {
                add(name, protocol.notes().place("setting " + name), "the setting " + name);
              }
            });
    protocol
        .instruments()
        .signals()
        .forEach(
            (name, signal) -> {
              if (signal.range().isPresent() && !signal.source().isNamed()) {
                add(name, protocol.notes().place("signal " + name), "the signal " + name);
              }
            });
    protocol
        .instruments()
        .loads()
        .forEach(
            (name, range) -> {
              if (!range.source().isNamed()) {
                add(name, protocol.notes().place("load " + name), "the range of the load " + name);
              }
            });
    for (EstimateLine estimate : protocol.assessment().estimates()) {
      if (!estimate.source().isNamed()) {
        add(
            estimate.id(),
            protocol.notes().place("estimate " + estimate.id()),
            "the estimate " + estimate.id());
      }
    }
    protocol.notes().replaced().forEach(this::replaced);
    protocol.notes().dropped().forEach(this::dropped);
  }

  private void add(String about, org.gradus.diagnostic.Span where, String what) {
    found.add(
        ReviewFinding.of(
            Check.NO_SOURCE, about, where, what + " gives a figure but no source", ""));
  }

  private void replaced(Replaced replaced) {
    String name = replaced.part().substring(replaced.part().indexOf(' ') + 1);
    found.add(
        ReviewFinding.of(
            Check.REPLACED_PART,
            name,
            replaced.where(),
            replaced.part() + " replaces the one of " + replaced.set(),
            ""));
  }

  private void dropped(Dropped dropped) {
    found.add(
        ReviewFinding.of(
            Check.DROPPED_RULE,
            dropped.rule(),
            dropped.where(),
            "the rule " + dropped.rule() + " of " + dropped.set() + " is left out",
            ""));
  }
}
