package org.gradus.session;

import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Condition;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/**
 * What alarming stops leave behind: their signs have to go before recovery can end, and the person
 * needs clearance before a training plan. A stop of which its file says that it is not alarming, a
 * wish or a fault of the equipment, leaves nothing behind.
 */
final class Symptoms {

  private Symptoms() {}

  /** Notes the signs that are there and that some of the rules, if alarming, stop for. */
  static void note(TestState state, Collection<String> rules, TestState.Change change) {
    alarming(state, rules)
        .flatMap(rule -> rule.rule().condition().stream())
        .forEach(condition -> note(state, condition, change));
  }

  /**
   * Notes whether an alarming stop applies when the exercise, or the test, is ended: by following
   * it or against it.
   */
  static void noteAlarm(StateAt now, TestState.Change change) {
    Set<String> stopping = new HashSet<>(StopMonitor.stopping(now));
    stopping.addAll(change.watches.heard());
    change.watches = change.watches.alarmed(alarming(now.state(), stopping).findAny().isPresent());
  }

  private static Stream<ProtocolRule> alarming(TestState state, Collection<String> ids) {
    return Stream.concat(
            state.protocol.rules().anyTime().stream(), state.protocol.rules().recovery().stream())
        .filter(rule -> rule.isStop() && rule.alarming() && ids.contains(rule.id()));
  }

  private static void note(TestState state, Condition condition, TestState.Change change) {
    condition.demands().stream()
        .filter(demand -> state.protocol.instruments().signs().containsKey(demand.subject()))
        .filter(demand -> state.signs.grade(demand.subject()) > 0)
        .forEach(demand -> change.signs = change.signs.withSymptom(demand.subject()));
  }

  /** What is to be asked about those that are not known to have gone. */
  static List<Agenda.Symptom> open(TestState state) {
    return state.signs.symptoms().stream()
        .sorted()
        .map(state.protocol.instruments()::sign)
        .map(sign -> new Agenda.Symptom(sign.name(), sign.prompt()))
        .toList();
  }

  /** What is unmet as long as they are not. */
  static List<Message> unmet(TestState state) {
    return state.signs.symptoms().stream().sorted().map(Symptoms::unmet).toList();
  }

  private static Message unmet(String sign) {
    return Message.of(SessionMessage.SIGN_NOT_GONE, new FileText(sign));
  }
}
