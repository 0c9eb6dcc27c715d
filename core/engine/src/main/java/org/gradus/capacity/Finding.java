package org.gradus.capacity;

import static java.util.Objects.requireNonNull;

import java.util.List;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.Suspicion;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/**
 * Something about a result that deserves a second look.
 *
 * @param rule the id of the rule that found it
 * @param suspicion what is suspected, and where to look
 * @param stages the stages at whose ends it was found; none for what is no matter of a stage
 * @param reason the reason the file gives, or the rule itself
 * @param numbers the rule with its numbers filled in
 * @param source where the rule comes from
 */
public record Finding(
    String rule,
    Suspicion suspicion,
    List<String> stages,
    Message reason,
    String numbers,
    Citation source) {

  public Finding {
    requireNonNull(reason, "reason");
    requireNonNull(numbers, "numbers");
    requireNonNull(rule, "rule");
    requireNonNull(source, "source");
    requireNonNull(stages, "stages");
    requireNonNull(suspicion, "suspicion");
    stages = List.copyOf(stages);
  }

  /** The reason the file gives, or the rule itself, in English. */
  public String why() {
    return reason.toString();
  }

  /** In one line, to be said in any language. */
  public Message message() {
    FileText ingredient = new FileText(suspicion.ingredient());
    ResultMessage look =
        switch (suspicion.look()) {
          case SUM -> ResultMessage.CHECK_SUM;
          case PROCEDURE -> ResultMessage.CHECK_PROCEDURE;
        };
    return stages.isEmpty()
        ? Message.of(ResultMessage.FINDING, ingredient, reason, look)
        : Message.of(
            ResultMessage.FINDING_IN,
            ingredient,
            stages.stream().map(FileText::new).toList(),
            reason,
            look);
  }

  /** In one line. */
  @Override
  public String toString() {
    return message().toString();
  }
}
