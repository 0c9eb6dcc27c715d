package org.gradus.rule.check;

import java.util.List;
import java.util.Optional;

/**
 * A named definition. It has one or more alternatives, of which the first that applies gives the
 * value; a plain definition has one that always applies.
 *
 * @param name its name
 * @param type what it evaluates to
 * @param place where its value is kept while a pass lasts
 * @param alternatives in order
 */
public record Term(String name, Type type, int place, List<Alternative> alternatives) {

  public Term {
    alternatives = List.copyOf(alternatives);
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
