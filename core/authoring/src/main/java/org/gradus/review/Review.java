package org.gradus.review;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.AuthorNotes.Acceptance;
import org.gradus.protocol.Protocol;

/**
 * What a second pair of eyes sees in a protocol that loads.
 *
 * <pre>{@code
 * Review review = Review.of(protocol);
 * review.findings().forEach(System.out::println);
 * System.out.println(review.accepted().size() + " accepted, checked on " + review.points());
 * }</pre>
 *
 * <p>A review finds slips; it does not prove that there are none, and it says nothing about whether
 * a test is right for a person. Gradus advises a trained person who decides; medical clearance and
 * local rules come first.
 *
 * @param protocol id and version of what was reviewed
 * @param findings what is not accepted, the gravest first
 * @param accepted what the file accepts
 * @param points on how many points rules were sampled in all
 * @param lengths how long a test can be
 */
public record Review(
    String protocol,
    List<ReviewFinding> findings,
    List<Accepted> accepted,
    int points,
    Lengths lengths) {

  /**
   * A finding that the file accepts.
   *
   * @param finding what was found
   * @param reason why it is accepted
   */
  public record Accepted(ReviewFinding finding, String reason) {
    public Accepted {
      requireNonNull(finding, "finding");
      requireNonNull(reason, "reason");
    }
  }

  /**
   * How long a test can be when every verdict is followed.
   *
   * @param shortest the shortest way to a finish at the end of a stage
   * @param exercise the longest exercise, with all holds and waits
   * @param whole the longest test, recovery included
   */
  public record Lengths(Duration shortest, Duration exercise, Duration whole) {
    public Lengths {
      requireNonNull(exercise, "exercise");
      requireNonNull(shortest, "shortest");
      requireNonNull(whole, "whole");
    }
  }

  public Review {
    requireNonNull(accepted, "accepted");
    requireNonNull(findings, "findings");
    requireNonNull(lengths, "lengths");
    requireNonNull(protocol, "protocol");
    findings = List.copyOf(findings);
    accepted = List.copyOf(accepted);
  }

  /** Looks a protocol over. The same protocol always gives the same review. */
  public static Review of(Protocol protocol) {
    Sampler sampler = new Sampler(protocol);
    TestLengths lengths = new TestLengths(protocol);
    List<ReviewFinding> found = new ArrayList<>();
    new StageEndCheck(protocol, sampler, found).look();
    new SignalCheck(protocol, found).look();
    new LimitCheck(protocol, found).look();
    new UptakeCheck(protocol, sampler, found).look();
    new SourceCheck(protocol, found).look();
    new SafetyCheck(protocol, found).look();
    lengths.look(found);
    List<ReviewFinding> open = new ArrayList<>();
    List<Accepted> accepted = new ArrayList<>();
    for (ReviewFinding finding :
        found.stream().distinct().sorted(ReviewFinding.BY_SEVERITY).toList()) {
      protocol.notes().accepted().stream()
          .filter(acceptance -> accepts(acceptance, finding))
          .findFirst()
          .ifPresentOrElse(
              acceptance -> accepted.add(new Accepted(finding, acceptance.reason())),
              () -> open.add(finding));
    }
    for (Acceptance acceptance : protocol.notes().accepted()) {
      if (found.stream().noneMatch(finding -> accepts(acceptance, finding))) {
        open.add(idle(acceptance));
      }
    }
    return new Review(protocol.toString(), open, accepted, sampler.points(), lengths.lengths());
  }

  private static boolean accepts(Acceptance acceptance, ReviewFinding finding) {
    return acceptance.finding().equals(finding.check().code())
        && acceptance.of().map(finding.about()::equals).orElse(!mustSayOfWhat(finding.check()));
  }

  // Who accepts that there is no ceiling has not accepted that nobody asks for clearance.
  private static boolean mustSayOfWhat(Check check) {
    return check == Check.MISSING_SAFETY_RULE;
  }

  private static ReviewFinding idle(Acceptance acceptance) {
    String what = acceptance.finding() + acceptance.of().map(of -> " of " + of).orElse("");
    Optional<Check> check = Check.named(acceptance.finding());
    String message = "nothing was found that this accepts: " + what;
    if (check.isEmpty()) {
      message = "there is no such finding: " + acceptance.finding();
    } else if (mustSayOfWhat(check.get()) && acceptance.of().isEmpty()) {
      message = "this accepts nothing, since it does not say of what: add of";
    }
    return ReviewFinding.of(
        Check.IDLE_ACCEPTANCE, acceptance.finding(), acceptance.where(), message, "");
  }

  /** Whether nothing was found but what the file accepts. */
  public boolean isClean() {
    return findings.isEmpty();
  }
}
