package org.gradus.examples.quickstart;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.gradus.protocol.Protocol;
import org.gradus.rule.answer.Filled;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Agenda;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** Writes down what happens, one line per moment and its reasons below. */
final class Account {

  private final Protocol protocol;
  private final StringBuilder out = new StringBuilder();

  Account(Protocol protocol) {
    this.protocol = protocol;
  }

  String text() {
    return out.toString();
  }

  void opening() {
    line(protocol.heading().title() + " (" + protocol + ")");
    line(
        "An invented person, a recorded test. The longest possible one lasts "
            + Times.clock(protocol.longest())
            + ".");
    line("Advice to a trained person who decides; no medical device.");
    protocol.heading().cautions().forEach(this::line);
    line("");
    row("time", "load", "readings", "recommendation");
  }

  void moment(Session session, RecordedTest.Moment moment, Decision decision) {
    String readings = moment.told().stream().map(Account::shown).collect(Collectors.joining(", "));
    String load = session.outcome().load().isEmpty() ? "" : Loading.line(session.outcome().load());
    row(Times.clock(moment.at()), load, readings, decision.verdict().toString());
    decision.because().ifPresent(this::because);
    decision
        .offers()
        .forEach(offer -> note("offered", offer.verdict().word() + ", " + offer.because().why()));
    if (decision.verdict() instanceof Verdict.Continue) {
      missed(decision.agenda());
    }
    if (!decision.firmness().isFirm()) {
      note(
          "marginal",
          "the count is too coarse to be sure of "
              + String.join(" and of ", decision.firmness().couldFlip()));
    }
    if (!decision.unchecked().isEmpty()) {
      String rules =
          decision.unchecked().stream()
              .map(Decision.Unchecked::rule)
              .collect(Collectors.joining(", "));
      String gaps =
          decision.unchecked().stream()
              .flatMap(u -> u.gaps().stream())
              .map(Gap::toString)
              .distinct()
              .collect(Collectors.joining(", "));
      note("unchecked", rules + " (" + gaps + ")");
    }
    decision.cautions().forEach(caution -> note("caution", caution.why()));
  }

  private void because(Because because) {
    note("why", because.rule() + ": " + because.shortly());
    because.filled().ifPresent(this::numbers);
  }

  private void numbers(Filled filled) {
    note("", filled.text());
    filled.definitions().forEach(definition -> note("", "- " + definition));
  }

  private void missed(Agenda agenda) {
    List<String> missed =
        agenda.items().stream()
            .filter(item -> item.state() == Agenda.State.MISSED)
            .map(item -> String.join("/", item.names()) + " at " + Times.clock(item.due()))
            .toList();
    if (!missed.isEmpty()) {
      note("missed", String.join(", ", missed));
    }
  }

  private static String shown(Reading reading) {
    if (reading instanceof Reading.Baseline baseline) {
      return "resting " + shown(baseline.reading());
    } else if (reading instanceof Reading.Pressure cuff) {
      return Math.round(cuff.systolic().value().amount()) + "/" + cuff.diastolic().value();
    }
    return reading.subject().replace('_', ' ') + " " + reading;
  }

  private void row(String time, String load, String readings, String recommendation) {
    line(
        String.format(Locale.ROOT, "%5s  %-14s  %-42s  %s", time, load, readings, recommendation)
            .stripTrailing());
  }

  private void note(String label, String text) {
    line(String.format(Locale.ROOT, "%7s%-10s%s", "", label, text).stripTrailing());
  }

  private void line(String text) {
    out.append(text).append('\n');
  }
}
