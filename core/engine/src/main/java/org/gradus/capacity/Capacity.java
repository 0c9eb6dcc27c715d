package org.gradus.capacity;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.internal.KeyMoments;
import org.gradus.knowledge.NormTable;
import org.gradus.protocol.Protocol;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Outcome;
import org.gradus.unit.Quantity;

/**
 * The aerobic capacity of a person by all estimates of a protocol. The first that could be made is
 * the headline, unless it is implausible: then something it was made from is wrong, the others rest
 * on the same test, and there is no headline but a finding.
 *
 * <pre>{@code
 * Capacity capacity = Capacity.of(session.outcome());
 * capacity.headline().ifPresent(best -> show(best.vo2max(), best.interval()));
 * capacity.findings().forEach(finding -> show(finding));
 * List<Standing> standings = capacity.standings(library.norms());
 * }</pre>
 *
 * <p>An estimate is no measurement: it can be off by a fifth and more in a single person.
 *
 * @param facts the test they come from
 * @param estimates of the aerobic capacity, in the order of the protocol; one that the protocol
 *     names as its headline comes first
 * @param results other results, in the same order
 * @param findings what deserves a second look
 * @param clearance whether a stop ended the test, and whether the person was cleared for exercise
 *     since
 */
public record Capacity(
    TestFacts facts,
    List<Estimate> estimates,
    List<Result> results,
    List<Finding> findings,
    Clearance clearance) {

  public Capacity {
    requireNonNull(clearance, "clearance");
    requireNonNull(estimates, "estimates");
    requireNonNull(facts, "facts");
    requireNonNull(findings, "findings");
    requireNonNull(results, "results");
    estimates = List.copyOf(estimates);
    results = List.copyOf(results);
    findings = List.copyOf(findings);
  }

  /** Works out every estimate of the protocol of a test, and looks at what comes out. */
  public static Capacity of(Outcome outcome) {
    Estimator estimator = new Estimator(outcome);
    List<Estimate> estimates =
        outcome.protocol().assessment().estimates().stream().map(estimator::estimate).toList();
    List<Result> results =
        outcome.protocol().assessment().results().stream().map(estimator::result).toList();
    Map<String, Quantity> told = new LinkedHashMap<>();
    first(estimates).ifPresent(best -> told.put("vo2max", best.vo2max()));
    results.stream()
        .filter(Result::isAvailable)
        .forEach(result -> told.put(result.id(), result.value().orElseThrow()));
    List<Finding> findings = new ArrayList<>();
    for (Estimate estimate : estimates) {
      if (estimate instanceof Estimate.Implausible implausible) {
        findings.add(implausible.finding());
      }
    }
    first(estimates).ifPresent(best -> findings.addAll(SecondLook.at(best, estimates)));
    results.forEach(result -> result.finding().ifPresent(findings::add));
    findings.addAll(new Plausibility(outcome, told).findings());
    return new Capacity(
        facts(outcome, results), estimates, results, findings, Clearance.of(outcome));
  }

  private static TestFacts facts(Outcome outcome, List<Result> results) {
    Protocol protocol = outcome.protocol();
    Frame frame = KeyMoments.of(outcome).atFinish();
    Map<String, Quantity> readings = new LinkedHashMap<>();
    protocol
        .wiring()
        .axes()
        .forEach(
            (name, formula) -> {
              double value = formula.value(frame);
              if (!Double.isNaN(value)) {
                readings.put(name, protocol.shown(name, value, formula.kind()));
              }
            });
    results.stream()
        .filter(Result::isAvailable)
        .forEach(result -> readings.put(result.id(), result.value().orElseThrow()));
    Map<String, String> settings = new LinkedHashMap<>();
    protocol.settings().forEach((name, setting) -> settings.put(name, setting.value().toString()));
    return new TestFacts(
        protocol.id(),
        protocol.heading().title(),
        protocol.heading().ergometer(),
        protocol.heading().purpose(),
        settings,
        Optional.ofNullable(protocol.wiring().axes().get("max_heart_rate"))
            .flatMap(formula -> formula.chosen(frame)),
        outcome.person(),
        readings,
        protocol.instruments().loads());
  }

  /**
   * The same of a person who has been cleared for exercise since the stop that ended the test, by
   * somebody who may do so; for a host to which that was told after the test was over. While it
   * goes on, in recovery, tell the session: {@link org.gradus.session.Readings#clearedAfterStop}.
   */
  public Capacity clearedAfterStop() {
    return clearance == Clearance.OUTSTANDING
        ? new Capacity(facts, estimates, results, findings, Clearance.GIVEN)
        : this;
  }

  /** The first estimate that could be made, if it is plausible; never one that is a second look. */
  public Optional<Estimate.Available> headline() {
    return first(estimates);
  }

  private static Optional<Estimate.Available> first(List<Estimate> estimates) {
    return estimates.stream()
        .filter(estimate -> !estimate.secondLook())
        .filter(estimate -> !(estimate instanceof Estimate.Unavailable))
        .findFirst()
        .filter(Estimate.Available.class::isInstance)
        .map(Estimate.Available.class::cast);
  }

  /** The result of an id, if the protocol declares it. */
  public Optional<Result> result(String id) {
    requireNonNull(id, "id");
    return results.stream().filter(result -> result.id().equals(id)).findFirst();
  }

  /** The estimate of an id, if the protocol declares it. */
  public Optional<Estimate> estimate(String id) {
    requireNonNull(id, "id");
    return estimates.stream().filter(estimate -> estimate.id().equals(id)).findFirst();
  }

  /**
   * Where the headline, and readings that have norms of their own, stand among people of the same
   * sex and age. Tables of other people, ergometers and tests are passed over.
   */
  public List<Standing> standings(List<NormTable> tables) {
    return new Norms(this).standings(tables);
  }
}
