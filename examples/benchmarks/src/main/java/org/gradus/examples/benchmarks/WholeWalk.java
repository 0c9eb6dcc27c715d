package org.gradus.examples.benchmarks;

import static org.gradus.session.Readings.chosen;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.rating;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/** A whole standard walk: every reading of a sheet when it is due, every verdict followed. */
final class WholeWalk {

  private WholeWalk() {}

  /** The verdicts that were followed, from the first stage to recovery, by the engine. */
  static List<Verdict.Kind> byGradus(Protocol walk, WalkSheet sheet) {
    List<Verdict.Kind> followed = new ArrayList<>();
    Session session = StandardWalk.ready(walk);
    Duration start = Duration.ZERO;
    session.follow(session.decide(start));
    for (int stage = 0; session.phase() == Phase.STAGE; stage++) {
      Verdict.Kind verdict = Verdict.Kind.CONTINUE;
      Duration now = start;
      for (int minute = 1; verdict != Verdict.Kind.ADVANCE; minute++) {
        if (minute == WalkSheet.MINUTES) {
          session.record(now.plusSeconds(15), pressure(sheet.systolic(stage), 80));
          Decision rated =
              session.record(
                  now.plusSeconds(45),
                  rating(sheet.rating(stage), "rpe_6_20"),
                  chosen("gait", "walking"));
          if (rated.kind() == Verdict.Kind.FINISH) {
            session.follow(rated);
            followed.add(rated.kind());
            return followed;
          }
        }
        now = start.plusMinutes(minute);
        Decision decision = session.record(now, heartRate(sheet.rate(stage, minute)));
        verdict = decision.kind();
        if (verdict != Verdict.Kind.CONTINUE) {
          session.follow(decision);
          followed.add(verdict);
        }
        if (verdict == Verdict.Kind.FINISH) {
          return followed;
        }
      }
      start = now;
    }
    return followed;
  }

  /**
   * The same by hand: what a programmer would write for this one protocol, for sheets on which
   * nothing is missing and nothing asks for a second reading.
   */
  static List<Verdict.Kind> byHand(WalkSheet sheet) {
    double ceiling = Math.floor(0.85 * (220 - WalkSheet.AGE) + 0.5);
    double high = Math.min(135, ceiling - 10);
    List<Verdict.Kind> followed = new ArrayList<>();
    for (int stage = 0; stage < WalkSheet.STAGES; stage++) {
      if (sheet.rating(stage) > 17) {
        followed.add(Verdict.Kind.FINISH);
        return followed;
      }
      int minute = WalkSheet.MINUTES;
      boolean steady = isSteady(sheet, stage, minute);
      while (!steady && minute < WalkSheet.MINUTES + WalkSheet.HOLDS) {
        followed.add(Verdict.Kind.HOLD);
        minute++;
        steady = isSteady(sheet, stage, minute);
      }
      boolean last = stage == WalkSheet.STAGES - 1;
      boolean finished = !steady || sheet.rate(stage, minute) >= high || last;
      followed.add(finished ? Verdict.Kind.FINISH : Verdict.Kind.ADVANCE);
      if (finished) {
        return followed;
      }
    }
    return followed;
  }

  private static boolean isSteady(WalkSheet sheet, int stage, int minute) {
    return Math.abs(sheet.rate(stage, minute) - sheet.rate(stage, minute - 1)) <= 5;
  }
}
