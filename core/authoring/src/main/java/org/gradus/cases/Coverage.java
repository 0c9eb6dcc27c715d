package org.gradus.cases;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;

/**
 * What cases have shown of a protocol.
 *
 * @param protocol its id
 * @param rules all its rules
 * @param stages all its stages
 * @param decided the rules that stood behind a verdict
 * @param fired the rules that held somewhere: those that decided, offered or cautioned
 * @param reached the stages that were begun
 */
public record Coverage(
    String protocol,
    List<String> rules,
    List<String> stages,
    Set<String> decided,
    Set<String> fired,
    Set<String> reached) {

  public Coverage {
    requireNonNull(decided, "decided");
    requireNonNull(fired, "fired");
    requireNonNull(protocol, "protocol");
    requireNonNull(reached, "reached");
    requireNonNull(rules, "rules");
    requireNonNull(stages, "stages");
    rules = List.copyOf(rules);
    stages = List.copyOf(stages);
    decided = Set.copyOf(decided);
    fired = Set.copyOf(fired);
    reached = Set.copyOf(reached);
  }

  static Coverage of(
      Protocol protocol, Set<String> decided, Set<String> fired, Set<String> reached) {
    Set<String> rules = new TreeSet<>();
    List.of(
            protocol.rules().before(),
            protocol.rules().anyTime(),
            protocol.rules().stageEnd(),
            protocol.rules().recovery())
        .forEach(list -> list.stream().map(ProtocolRule::id).forEach(rules::add));
    protocol
        .stages()
        .forEach(
            stage ->
                stage
                    .ownRules()
                    .ifPresent(own -> own.stream().map(ProtocolRule::id).forEach(rules::add)));
    return new Coverage(
        protocol.id(),
        List.copyOf(rules),
        protocol.stages().stream().map(stage -> stage.id()).toList(),
        decided,
        fired,
        reached);
  }

  /** This together with what other cases of the same protocol have shown. */
  public Coverage and(Coverage other) {
    return new Coverage(
        protocol,
        rules,
        stages,
        joined(decided, other.decided),
        joined(fired, other.fired),
        joined(reached, other.reached));
  }

  private static Set<String> joined(Set<String> some, Set<String> others) {
    Set<String> all = new TreeSet<>(some);
    all.addAll(others);
    return all;
  }

  /** The rules that never held in any case. */
  public List<String> neverFired() {
    return rules.stream().filter(rule -> !fired.contains(rule)).toList();
  }

  /** The stages that no case has reached. */
  public List<String> neverReached() {
    return stages.stream().filter(stage -> !reached.contains(stage)).toList();
  }

  /** In a few lines for people. */
  @Override
  public String toString() {
    return protocol
        + ": "
        + (rules.size() - neverFired().size())
        + " of "
        + rules.size()
        + " rules held, "
        + (stages.size() - neverReached().size())
        + " of "
        + stages.size()
        + " stages reached"
        + listed("; never held: ", neverFired())
        + listed("; never reached: ", neverReached());
  }

  private static String listed(String what, List<String> names) {
    return names.isEmpty() ? "" : names.stream().collect(Collectors.joining(", ", what, ""));
  }
}
