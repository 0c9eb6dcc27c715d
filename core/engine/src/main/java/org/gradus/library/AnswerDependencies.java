package org.gradus.library;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.rule.check.Demand;

/**
 * What counts as an answer, as long as none is given, and what is offered, rest only on the person
 * and on other answers, and on none that rests on them in turn.
 */
final class AnswerDependencies {

  private static final int MOST_PARTS = 10_000;
  private static final int MOST_DEEP = 100;

  private final Draft draft;
  private final Protocol protocol;
  private final Problems problems;
  private final Map<String, Set<String>> restsOn = new LinkedHashMap<>();

  AnswerDependencies(Draft draft, Protocol protocol, Problems problems) {
    this.draft = draft;
    this.protocol = protocol;
    this.problems = problems;
  }

  void check() {
    protocol
        .instruments()
        .questions()
        .forEach((name, question) -> restsOn.put(name, others(name, question.demands())));
    Optional<String> circular = restsOn.keySet().stream().filter(this::isCircular).findFirst();
    circular.ifPresent(this::circle);
    if (circular.isEmpty()) {
      limit();
    }
  }

  // A default written out is as large as all it rests on, and that may double with every question.
  private void limit() {
    Map<String, Integer> parts = new HashMap<>();
    for (String name : restsOn.keySet()) {
      if (parts(name, parts, 0) > MOST_PARTS) {
        problems.add(
            where(name),
            Code.G105,
            "more than " + MOST_PARTS + " parts with its defaults and options written out",
            Integer.toString(MOST_PARTS),
            "let fewer defaults and options rest on other answers");
        return;
      }
    }
  }

  private int parts(String name, Map<String, Integer> known, int depth) {
    Integer before = known.get(name);
    if (before != null) {
      return before;
    }
    int parts = depth > MOST_DEEP ? MOST_PARTS + 1 : 1;
    for (String other : restsOn.getOrDefault(name, Set.of())) {
      parts += parts > MOST_PARTS ? 0 : parts(other, known, depth + 1);
    }
    int counted = Math.min(parts, MOST_PARTS + 1);
    known.put(name, counted);
    return counted;
  }

  private Set<String> others(String name, Set<Demand> demands) {
    Set<String> others = new TreeSet<>();
    for (Demand demand : demands) {
      boolean value = demand.aspect() == Demand.Aspect.VALUE;
      if (value && protocol.wiring().fact(demand) instanceof Fact.Answer answer) {
        others.add(answer.question());
      } else if (!value || !(protocol.wiring().fact(demand) instanceof Fact.Attribute)) {
        problems.add(
            where(name),
            Code.G410,
            demand.subject(),
            "when " + name + " is asked",
            "use only what is known of the person, and other answers");
      }
    }
    return others;
  }

  private Span where(String name) {
    return draft.questions.containsKey(name)
        ? Objects.requireNonNull(draft.questions.get(name)).where()
        : draft.header.where();
  }

  private boolean isCircular(String name) {
    Set<String> seen = new LinkedHashSet<>();
    List<String> left = new ArrayList<>(restsOn.getOrDefault(name, Set.of()));
    while (!left.isEmpty()) {
      String next = left.remove(left.size() - 1);
      if (seen.add(next)) {
        left.addAll(restsOn.getOrDefault(next, Set.of()));
      }
    }
    return seen.contains(name);
  }

  private void circle(String name) {
    String circle = String.join(", ", restsOn.keySet().stream().filter(this::isCircular).toList());
    problems.add(where(name), Code.G215, name, circle);
  }
}
