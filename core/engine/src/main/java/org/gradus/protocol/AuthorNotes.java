package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.unit.QuantityRange;

/**
 * What the files say to a reviewer and not to a test: where parts stand, what is usual, what became
 * of included parts, and which findings the author accepts.
 *
 * @param where where the protocol's id stands
 * @param places where parts stand: {@code "stage walk_1"}, {@code "setting steady_band"}, {@code
 *     "define steady"}, {@code "estimate single_stage"}
 * @param usual within what a signal, a load or {@code test.time} usually lies, by name
 * @param replaced included parts that the protocol's own replace
 * @param dropped included rules that are left out
 * @param accepted findings the author accepts
 * @param falls the stages that are meant to be easier than the one before
 * @param mixed rules and definitions in which and stands beside or without brackets, with the part
 */
public record AuthorNotes(
    Span where,
    Map<String, Span> places,
    Map<String, Usual> usual,
    List<Replaced> replaced,
    List<Dropped> dropped,
    List<Acceptance> accepted,
    Set<String> falls,
    Map<String, Span> mixed) {

  /**
   * Within what something usually lies. A figure outside is looked at twice, not refused.
   *
   * @param range both ends included
   * @param source where it comes from
   */
  public record Usual(QuantityRange range, Citation source) {
    public Usual {
      requireNonNull(range, "range");
      requireNonNull(source, "source");
    }
  }

  /**
   * An included part that the protocol's own of the same name replaces.
   *
   * @param part what and which: {@code "setting ceiling"}
   * @param set the rule set it was in
   * @param where where the protocol's own stands
   */
  public record Replaced(String part, String set, Span where) {
    public Replaced {
      requireNonNull(part, "part");
      requireNonNull(set, "set");
      requireNonNull(where, "where");
    }
  }

  /**
   * An included rule that is left out.
   *
   * @param rule its id
   * @param set the rule set it is in
   * @param where where it is left out
   */
  public record Dropped(String rule, String set, Span where) {
    public Dropped {
      requireNonNull(rule, "rule");
      requireNonNull(set, "set");
      requireNonNull(where, "where");
    }
  }

  /**
   * A finding that the author has looked at and accepts.
   *
   * @param finding its code
   * @param of what it is about: a rule, stage, setting or definition; empty: whatever it is about
   * @param reason why
   * @param where where it is accepted
   */
  public record Acceptance(String finding, Optional<String> of, String reason, Span where) {
    public Acceptance {
      requireNonNull(finding, "finding");
      requireNonNull(of, "of");
      requireNonNull(reason, "reason");
      requireNonNull(where, "where");
    }
  }

  public AuthorNotes {
    requireNonNull(accepted, "accepted");
    requireNonNull(dropped, "dropped");
    requireNonNull(falls, "falls");
    requireNonNull(mixed, "mixed");
    requireNonNull(places, "places");
    requireNonNull(replaced, "replaced");
    requireNonNull(usual, "usual");
    requireNonNull(where, "where");
    places = Collections.unmodifiableMap(new LinkedHashMap<>(places));
    usual = Collections.unmodifiableMap(new LinkedHashMap<>(usual));
    replaced = List.copyOf(replaced);
    dropped = List.copyOf(dropped);
    accepted = List.copyOf(accepted);
    falls = Set.copyOf(falls);
    mixed = Collections.unmodifiableMap(new LinkedHashMap<>(mixed));
  }

  /** Where a part stands, else where the protocol does. */
  public Span place(String part) {
    requireNonNull(part, "part");
    return places.getOrDefault(part, where);
  }
}
