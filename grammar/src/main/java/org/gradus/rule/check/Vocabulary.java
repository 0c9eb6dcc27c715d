package org.gradus.rule.check;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The names a text may use, each with its meaning. Names with a dot are one name: {@code
 * resting.systolic}.
 */
public final class Vocabulary {

  private static final Vocabulary EMPTY = new Vocabulary(Map.of());

  private final Map<String, Symbol> symbols;

  private Vocabulary(Map<String, Symbol> symbols) {
    this.symbols = symbols;
  }

  /** No names. */
  public static Vocabulary empty() {
    return EMPTY;
  }

  /** The names of a map as they are at any time, also those that are still to be put into it. */
  static Vocabulary over(Map<String, Symbol> growing) {
    return new Vocabulary(growing);
  }

  /** These names. */
  public static Vocabulary of(Map<String, ? extends Symbol> symbols) {
    return EMPTY.with(symbols);
  }

  /** This vocabulary with further names; a further name replaces one it had. */
  public Vocabulary with(Map<String, ? extends Symbol> further) {
    Map<String, Symbol> all = copy();
    all.putAll(further);
    return new Vocabulary(all);
  }

  /** This vocabulary with one further name. */
  public Vocabulary with(String name, Symbol symbol) {
    return with(Map.of(name, symbol));
  }

  /** A map of all names, for adding to it. */
  Map<String, Symbol> copy() {
    return new LinkedHashMap<>(symbols);
  }

  /** The meaning of a name, if it has one. */
  public Optional<Symbol> meaning(String name) {
    return Optional.ofNullable(symbols.get(name));
  }

  /** All names. */
  public Set<String> names() {
    return java.util.Collections.unmodifiableSet(symbols.keySet());
  }
}
