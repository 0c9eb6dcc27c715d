package org.gradus.session;

import java.util.Collection;
import java.util.List;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Condition;

/**
 * What stopped the exercise and has to be gone before recovery can end: the signs that were there
 * when a stop for them was answered. A stop that is looked at in stages only is for something else:
 * a wish, a fault of the equipment.
 */
final class Symptoms {

  private Symptoms() {}

  /** Notes what is there of what some rules stop for. */
  static void note(Course course, Collection<String> rules, Course.Change change) {
    for (ProtocolRule rule : course.protocol.rules().endingRecovery()) {
      if (rules.contains(rule.id())) {
        rule.rule().condition().ifPresent(condition -> note(course, condition, change));
      }
    }
  }

  private static void note(Course course, Condition condition, Course.Change change) {
    condition.demands().stream()
        .filter(demand -> course.protocol.instruments().signs().containsKey(demand.subject()))
        .filter(demand -> course.signs.getOrDefault(demand.subject(), 0.0) > 0)
        .forEach(demand -> change.symptoms = Copies.with(change.symptoms, demand.subject()));
  }

  /** What is to be asked about those that are not known to have gone. */
  static List<Agenda.Symptom> open(Course course) {
    return course.symptoms.stream()
        .sorted()
        .map(course.protocol.instruments()::sign)
        .map(sign -> new Agenda.Symptom(sign.name(), sign.prompt()))
        .toList();
  }

  /** What is unmet as long as they are not. */
  static List<String> unmet(Course course) {
    return course.symptoms.stream().sorted().map(Symptoms::unmet).toList();
  }

  private static String unmet(String sign) {
    return sign + ": not known to have gone; ask, and withdraw it when it has";
  }
}
