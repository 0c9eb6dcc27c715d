package org.gradus.session;

import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Filled;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.plan.Frame;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/** Explains rules in words that a person can check. */
final class Reasons {

  private Reasons() {}

  static Because of(ProtocolRule rule, Frame frame) {
    Optional<Filled> filled = rule.rule().condition().map(when -> when.filled(frame));
    return new Because(
        rule.id(), rule.rule().text(), filled, said(rule), rule.instruction(), rule.source());
  }

  /** A reason that comes from the engine and not from a rule of the file. */
  static Because plain(String id, Message why) {
    return new Because(id, "", Optional.empty(), Optional.of(why), "", Citation.NONE);
  }

  private static Optional<Message> said(ProtocolRule rule) {
    return rule.why().isEmpty()
        ? Optional.empty()
        : Optional.of(Message.of(Joined.ALONE, new FileText(rule.why())));
  }

  static List<Gap> gaps(ProtocolRule rule, Frame frame) {
    return rule.rule().condition().map((Condition when) -> when.gaps(frame)).orElse(List.of());
  }
}
