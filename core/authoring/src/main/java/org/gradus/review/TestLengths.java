package org.gradus.review;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.AuthorNotes.Usual;
import org.gradus.protocol.Paths;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stage;
import org.gradus.review.Review.Lengths;
import org.gradus.rule.syntax.Action;

/** How long a test can be, and whether that is usual. */
final class TestLengths {

  private static final String NAME = "test.time";

  private final Protocol protocol;
  private final Lengths lengths;

  TestLengths(Protocol protocol) {
    this.protocol = protocol;
    Duration whole = protocol.longest();
    Duration recovery = protocol.recovery().map(Recovery::atMost).orElse(Duration.ZERO);
    this.lengths = new Lengths(shortest(), whole.minus(recovery), whole);
  }

  Lengths lengths() {
    return lengths;
  }

  // Ways lead only forwards, so one pass from the last stage is enough.
  private Duration shortest() {
    List<Stage> stages = protocol.stages();
    Duration[] fromHere = new Duration[stages.size()];
    for (int i = stages.size() - 1; i >= 0; i--) {
      Optional<Duration> rest = Optional.empty();
      for (ProtocolRule rule : protocol.rulesAtEndOf(stages.get(i))) {
        Optional<Duration> way = after(stages.get(i), rule, fromHere);
        rest =
            way.isPresent() && rest.filter(w -> w.compareTo(way.get()) <= 0).isEmpty() ? way : rest;
      }
      fromHere[i] = stages.get(i).lasts().plus(rest.orElse(Duration.ZERO));
    }
    Paths paths = Paths.of(protocol);
    Duration shortest = protocol.longest();
    for (int i = 0; i < fromHere.length; i++) {
      if (paths.canStart(i) && fromHere[i].compareTo(shortest) < 0) {
        shortest = fromHere[i];
      }
    }
    return shortest;
  }

  private Optional<Duration> after(Stage stage, ProtocolRule rule, Duration[] fromHere) {
    Action meant = rule.action().meant();
    return switch (meant.kind()) {
      case FINISH -> Optional.of(Duration.ZERO);
      case ADVANCE ->
          Optional.of(
              Paths.next(protocol, stage, meant).map(to -> fromHere[to]).orElse(Duration.ZERO));
      case STOP, HOLD, CHANGE, OFFER, CAUTION, DEFER, START_AT, END -> Optional.empty();
    };
  }

  void look(List<ReviewFinding> found) {
    Usual usual = protocol.notes().usual().get(NAME);
    if (usual == null) {
      return;
    }
    double shortest = usual.range().low().base();
    double longest = usual.range().high().base();
    boolean brief = lengths.shortest().toMillis() / 1000.0 < shortest;
    boolean lengthy = lengths.exercise().toMillis() / 1000.0 > longest;
    if (brief || lengthy) {
      found.add(
          ReviewFinding.of(
              Check.TEST_LENGTH,
              NAME,
              protocol.notes().where(),
              "the exercise can be as "
                  + (brief ? "short as " + clock(lengths.shortest()) : "")
                  + (brief && lengthy ? " and as " : "")
                  + (lengthy ? "long as " + clock(lengths.exercise()) : "")
                  + "; usual is "
                  + usual.range(),
              "usual by " + usual.source()));
    }
  }

  private static String clock(Duration time) {
    return org.gradus.session.Times.clock(time);
  }
}
