package org.gradus.rule.check;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.unit.Type;

/**
 * A named definition. It has one or more alternatives, of which the first that applies gives the
 * value; a plain definition has one that always applies.
 */
public final class Term {

  private final String name;
  private final Type type;
  private final int place;
  private final List<Alternative> alternatives;

  /**
   * @param name its name
   * @param type what it evaluates to
   * @param place where its value is kept while a pass lasts
   * @param alternatives in order
   */
  Term(String name, Type type, int place, List<Alternative> alternatives) {
    this.name = name;
    this.type = type;
    this.place = place;
    this.alternatives = List.copyOf(alternatives);
  }

  /** Its name. */
  public String name() {
    return name;
  }

  /** What it evaluates to. */
  public Type type() {
    return type;
  }

  /** Where its value is kept while a pass lasts. */
  public int place() {
    return place;
  }

  /** The alternatives, in order. */
  public List<Alternative> alternatives() {
    return alternatives;
  }

  /** The conditions and values of all alternatives. */
  List<Checked> texts() {
    return alternatives.stream()
        .flatMap(line -> Stream.concat(line.when().stream(), line.value().stream()))
        .toList();
  }

  /**
   * One way to come by the value.
   *
   * @param label what it is called where it was chosen from a list, else empty
   * @param when the conditions under which it applies, all of them; none: always
   * @param value the value; empty when this alternative says that there is none
   */
  public record Alternative(String label, List<Checked> when, Optional<Checked> value) {
    public Alternative {
      when = List.copyOf(when);
    }
  }
}
