package org.gradus.capacity;

import java.util.List;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.Suspicion;

/**
 * Something about a result that deserves a second look.
 *
 * @param rule the id of the rule that found it
 * @param suspicion what is suspected, and where to look
 * @param stages the stages at whose ends it was found; none for what is no matter of a stage
 * @param why the reason the file gives, or the rule itself
 * @param numbers the rule with its numbers filled in
 * @param source where the rule comes from
 */
public record Finding(
    String rule,
    Suspicion suspicion,
    List<String> stages,
    String why,
    String numbers,
    Citation source) {

  public Finding {
    stages = List.copyOf(stages);
  }

  /** In one line. */
  @Override
  public String toString() {
    String where = stages.isEmpty() ? "" : " (" + String.join(", ", stages) + ")";
    String look =
        suspicion.look() == Suspicion.Look.SUM
            ? "check what was written down"
            : "check how it was measured";
    return suspicion.ingredient() + where + ": " + why + " " + "First " + look + ".";
  }
}
