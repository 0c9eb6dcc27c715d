package org.gradus.examples.fleet;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Session;

/** One test on a plain session, which is asked at each moment at which its decision may change. */
final class PlainTest {

  static final Duration SILENCE = Duration.ofMinutes(5);

  final List<String> decisions = new ArrayList<>();
  final List<String> refusals = new ArrayList<>();
  private final Session session;
  private final String id;
  private Duration latest = Duration.ZERO;
  private Optional<Duration> change;

  PlainTest(Protocol protocol, List<RoomMessage> arriving) {
    id = arriving.get(0).test();
    session = Session.open(protocol, Json.toPerson(arriving.get(0).body()));
    change = answer(session.decide(Duration.ZERO));
    arriving.stream().skip(1).forEach(message -> arrive(Json.toEvent(message.body())));
    Duration closes = latest.plus(SILENCE);
    while (change.filter(next -> next.compareTo(closes) <= 0).isPresent()) {
      change = answer(session.decide(change.get()));
    }
  }

  String record() {
    return TestRecord.of(session, Optional.of(id)).text();
  }

  private void arrive(Event event) {
    try {
      if (event.at().compareTo(latest) < 0 && event instanceof Event.Read late) {
        Reading[] readings = late.readings().toArray(new Reading[0]);
        change = answer(session.recordTaken(latest, late.taken(), readings));
        return;
      }
      List<Decision> meanwhile = new ArrayList<>();
      for (Optional<Duration> next = change;
          next.isPresent() && next.get().compareTo(event.at()) < 0;
          next = meanwhile.get(meanwhile.size() - 1).changesAt()) {
        meanwhile.add(session.decide(next.get()));
      }
      Decision decision = session.tell(event);
      meanwhile.forEach(this::answer);
      change = answer(decision);
      latest = event.at();
    } catch (ReadingRefused | VerdictRefused refused) {
      refusals.add(refused.code().toString());
    }
  }

  private Optional<Duration> answer(Decision decision) {
    decisions.add(Json.of(decision));
    return decision.changesAt();
  }
}
