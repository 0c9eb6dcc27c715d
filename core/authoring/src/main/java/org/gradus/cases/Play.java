package org.gradus.cases;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.cases.CaseStep.Action;
import org.gradus.diagnostic.GradusException;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** Plays one case and compares what is answered with what must be. */
final class Play {

  private static final String RECOVERY = "recovery";
  private static final String REASON = "as the case says";

  private final Case told;
  private final Protocol protocol;
  private final CaseTeller telling;
  private final Session session;
  private final Map<String, Duration> starts = new HashMap<>();
  private final Map<String, Integer> events = new HashMap<>();
  private final List<Failure> failures = new ArrayList<>();
  private final Set<String> decided = new TreeSet<>();
  private final Set<String> fired = new TreeSet<>();
  private final Set<String> reached = new TreeSet<>();

  Play(Case told, Protocol protocol) {
    this.told = told;
    this.protocol = protocol;
    this.telling = new CaseTeller(protocol);
    this.session = Session.open(protocol, CaseTeller.person(told.person()));
  }

  /** Plays it to its end, and returns what was answered otherwise than it must be. */
  List<Failure> run() {
    List<Reading> before = telling.before(told.person());
    Decision first =
        before.isEmpty()
            ? session.decide(Duration.ZERO)
            : session.record(Duration.ZERO, before.toArray(new Reading[0]));
    see(first);
    if (told.begins() && first.verdict() instanceof Verdict.Ready) {
      session.follow(first);
      note(session);
    }
    Session earlier = session.fork();
    for (int i = 0; i < told.steps().size(); i++) {
      CaseStep step = told.steps().get(i);
      Session live = step.instead() ? earlier.fork() : session;
      if (!step.instead()) {
        earlier = session.fork();
      }
      if (!take(step, i, live)) {
        return List.copyOf(failures);
      }
    }
    new AnswerComparison(told, "the end", failures).end(session.outcome());
    return List.copyOf(failures);
  }

  /** Takes a step; false when it was refused without the case saying so, which ends the case. */
  private boolean take(CaseStep step, int number, Session session) {
    Duration at = resolve(step.at());
    AnswerComparison comparison =
        new AnswerComparison(told, "event " + (number + 1) + " at " + Times.clock(at), failures);
    Optional<String> expected = step.answer().refused();
    try {
      if (step.action() instanceof Action.Follow follow) {
        Decision decision = session.decide(at);
        if (!isThere(follow, decision)) {
          comparison.fails("follow", follow.offered(), decision.toString());
          return false;
        }
      }
      Decision answer = act(step.action(), at, session);
      if (!step.name().isEmpty()) {
        events.put(step.name(), session.events().size());
      }
      note(session);
      see(answer);
      expected.ifPresent(code -> comparison.fails("refused", code, "taken"));
      comparison.answer(step.answer(), answer, this::resolve);
    } catch (GradusException refused) {
      boolean meant = expected.filter(refused.code().name()::equals).isPresent();
      if (!meant) {
        comparison.fails("refused", expected.orElse("no"), message(refused));
      }
      return meant;
    }
    return true;
  }

  /** The session as it stands. */
  Session session() {
    return session;
  }

  static String message(GradusException refused) {
    return String.valueOf(refused.getMessage());
  }

  private Decision act(Action action, Duration at, Session session) {
    if (action instanceof Action.Tell tell) {
      return session.recordTaken(
          at,
          tell.taken().map(this::resolve).orElse(at),
          telling.readings(tell.readings()).toArray(new Reading[0]));
    } else if (action instanceof Action.Count count) {
      return session.recordTaken(
          at,
          count.taken().map(this::resolve).orElse(at),
          Readings.pulse(count.beats(), count.over()));
    } else if (action instanceof Action.Report report) {
      return report.grade().isPresent()
          ? session.report(at, report.sign(), report.grade().getAsInt())
          : session.report(at, report.sign());
    } else if (action instanceof Action.Withdraw withdraw) {
      return session.withdraw(at, withdraw.sign(), REASON);
    } else if (action instanceof Action.Load load) {
      for (Loading part : CaseTeller.load(load.load())) {
        session.loadSet(at, part);
      }
      return session.decide(at);
    } else if (action instanceof Action.Done done) {
      return session.done(at, done.taken().map(this::resolve).orElse(at));
    } else if (action instanceof Action.Amend amend) {
      Decision answer = session.decide(at);
      for (Reading better : telling.readings(amend.readings())) {
        answer = session.amend(at, events.getOrDefault(amend.step(), 0), better, REASON);
      }
      return answer;
    } else if (action instanceof Action.Reject reject) {
      return session.reject(at, events.getOrDefault(reject.step(), 0), reject.subject(), REASON);
    } else if (action instanceof Action.Follow follow) {
      follow(follow.offered(), session.decide(at), session);
    } else if (action instanceof Action.Overrule override) {
      session.override(at, verdict(override, at), REASON);
    } else if (action instanceof Action.Abandon) {
      session.abandon(at, REASON);
    }
    return session.decide(at);
  }

  // What a case follows must be the verdict or stand beside it: nothing is followed in its place.
  private static boolean isThere(Action.Follow follow, Decision decision) {
    return follow.offered().isEmpty()
        || AnswerComparison.word(decision.verdict()).equals(follow.offered())
        || offer(follow.offered(), decision).isPresent();
  }

  private static Optional<Decision.Offer> offer(String word, Decision decision) {
    return decision.offers().stream()
        .filter(one -> AnswerComparison.word(one.verdict()).equals(word))
        .findFirst();
  }

  private void follow(String offered, Decision decision, Session session) {
    see(decision);
    Optional<Decision.Offer> offer = offer(offered, decision);
    if (offer.isEmpty()) {
      session.follow(decision);
    } else {
      session.follow(decision, offer.get());
    }
  }

  private Verdict verdict(Action.Overrule override, Duration at) {
    Duration until = override.until().map(this::resolve).orElse(at);
    return switch (override.verdict()) {
      case "ready" -> new Verdict.Ready(override.to(), List.of());
      case "defer" -> new Verdict.Defer(List.of());
      case "hold" -> new Verdict.Hold(until);
      case "advance" -> new Verdict.Advance(override.to().isEmpty() ? next() : override.to());
      case "finish" -> new Verdict.Finish();
      case "stop" -> new Verdict.Stop(true, "");
      case "end" -> new Verdict.End();
      default -> new Verdict.Continue(until);
    };
  }

  // The stage after the one that was begun last.
  private String next() {
    int last = -1;
    for (var stage : protocol.stages()) {
      last = starts.containsKey(stage.id()) ? stage.place() : last;
    }
    return last + 1 < protocol.stages().size() ? protocol.stages().get(last + 1).id() : "";
  }

  private Duration resolve(CaseTime moment) {
    Duration from =
        moment.from().map(name -> starts.getOrDefault(name, Duration.ZERO)).orElse(Duration.ZERO);
    return from.plus(moment.after());
  }

  // When each stage began: the times of a case may be counted from there.
  private void note(Session session) {
    List<Event> all = session.events();
    if (all.isEmpty()) {
      return;
    }
    Event last = all.get(all.size() - 1);
    // A stage that begins anew counts from there.
    last.actedOn()
        .flatMap(Verdict::begins)
        .ifPresent(
            stage -> {
              reached.add(stage);
              starts.put(stage, last.at());
            });
    if (session.phase() == Phase.RECOVERY) {
      starts.putIfAbsent(RECOVERY, last.at());
    }
  }

  private void see(Decision decision) {
    decision.because().ifPresent(because -> decided.add(because.rule()));
    if (decision.verdict() instanceof Verdict.Defer defer) {
      defer.reasons().forEach(because -> decided.add(because.rule()));
    }
    fired.addAll(decided);
    decision.offers().forEach(offer -> fired.add(offer.because().rule()));
    decision.cautions().forEach(because -> fired.add(because.rule()));
  }

  /** What it has shown of the protocol so far. */
  Coverage coverage() {
    return Coverage.of(protocol, decided, fired, reached);
  }
}
