package org.gradus.examples.workbench;

import java.util.LinkedHashMap;
import java.util.Map;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Finding;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Result;
import org.gradus.capacity.Standing;
import org.gradus.knowledge.NormTable;
import org.gradus.protocol.EstimateLine.PublishedError;

/** What came out of a test, for programs. */
final class ResultMap {

  private ResultMap() {}

  static Map<String, Object> estimate(Estimate estimate) {
    Map<String, Object> map =
        Named.values("id", estimate.id(), "secondLook", estimate.secondLook());
    if (estimate instanceof Estimate.Available available) {
      map.put("vo2max", Named.quantity(available.vo2max()));
      available.interval().ifPresent(around -> map.put("interval", interval(around)));
      Named.put(map, "assumes", available.assumes());
      map.put("calculation", available.calculation());
      map.put("restsOn", Named.list(available.ingredients(), ResultMap::ingredient));
      available.publishedError().ifPresent(error -> map.put("publishedError", error(error)));
      map.put("cautions", available.cautions());
    } else {
      map.put("whyNot", estimate.reasons());
    }
    return Named.sourced(map, estimate.source());
  }

  static Map<String, Object> result(Result result) {
    Map<String, Object> map = Named.values("id", result.id(), "title", result.title());
    map.put("available", result.isAvailable());
    result.value().ifPresent(value -> map.put("value", Named.quantity(value)));
    result.interval().ifPresent(around -> map.put("interval", interval(around)));
    result.reference().ifPresent(expected -> map.put("reference", reference(expected)));
    map.put("words", result.words());
    Named.put(map, "assumes", result.assumes());
    Named.put(map, "calculation", result.calculation());
    map.put("restsOn", Named.list(result.ingredients(), ResultMap::ingredient));
    result.publishedError().ifPresent(error -> map.put("publishedError", error(error)));
    map.put("cautions", result.cautions());
    if (!result.isAvailable()) {
      map.put("whyNot", result.reasons());
    }
    return Named.sourced(map, result.source());
  }

  private static Map<String, Object> reference(Result.Compared expected) {
    Map<String, Object> map = Named.values("value", Named.quantity(expected.value()));
    expected.lower().ifPresent(lower -> map.put("lower", Named.quantity(lower)));
    expected.upper().ifPresent(upper -> map.put("upper", Named.quantity(upper)));
    return Named.sourced(map, expected.source());
  }

  private static Map<String, Object> interval(Interval around) {
    return Named.values(
        "low",
        Named.quantity(around.low()),
        "high",
        Named.quantity(around.high()),
        "sd",
        Named.quantity(around.sd()),
        "basis",
        Named.word(around.basis()),
        "propagated",
        Named.quantity(around.propagated()),
        "readings",
        Named.quantity(around.readings()),
        "model",
        Named.quantity(around.model()),
        "nearLinear",
        around.nearLinear(),
        "shares",
        Named.list(around.shares(), ResultMap::share));
  }

  private static Map<String, Object> share(Interval.Share share) {
    return Named.sourced(
        Named.values(
            "name",
            share.name(),
            "sd",
            Named.quantity(share.sd()),
            "share",
            share.share(),
            "percent",
            share.percent()),
        share.source());
  }

  private static Map<String, Object> ingredient(Estimate.Ingredient part) {
    Map<String, Object> map =
        Named.values("name", part.name(), "value", part.value(), "how", part.how());
    part.spread().ifPresent(spread -> map.put("spread", Named.quantity(spread)));
    return Named.sourced(map, part.source());
  }

  private static Map<String, Object> error(PublishedError error) {
    Map<String, Object> map =
        Named.values("sd", Named.quantity(error.sd()), "covers", Named.word(error.covers()));
    Named.put(map, "note", error.note());
    return Named.sourced(map, error.source());
  }

  static Map<String, Object> finding(Finding finding) {
    return Named.sourced(
        Named.values(
            "rule",
            finding.rule(),
            "suspected",
            finding.suspicion().ingredient(),
            "look",
            Named.word(finding.suspicion().look()),
            "stages",
            finding.stages(),
            "why",
            finding.why(),
            "numbers",
            finding.numbers()),
        finding.source());
  }

  static Map<String, Object> standing(Standing standing) {
    NormTable table = standing.table();
    Map<String, Object> map = Named.values("table", table.id(), "of", table.of());
    table.ergometer().ifPresent(ergometer -> map.put("ergometer", ergometer));
    map.put("edition", table.edition());
    map.putAll(place(standing));
    map.put("words", standing.words());
    map.put("notes", table.notes());
    return Named.sourced(map, table.source());
  }

  private static Map<String, Object> place(Standing standing) {
    Map<String, Object> map = new LinkedHashMap<>();
    if (standing instanceof Standing.AmongPercentiles among) {
      map.put("value", Named.quantity(among.value()));
      map.put("percentile", percentile(among.at()));
      among.low().ifPresent(low -> map.put("low", percentile(low)));
      among.high().ifPresent(high -> map.put("high", percentile(high)));
    } else if (standing instanceof Standing.InClass in) {
      map.put("value", Named.quantity(in.value()));
      map.put("class", in.name());
      Named.put(map, "remark", in.remark().map(Object::toString).orElse(""));
    }
    return map;
  }

  private static Map<String, Object> percentile(Standing.Place place) {
    Map<String, Object> map = new LinkedHashMap<>();
    place.below().ifPresent(reached -> map.put("reached", reached));
    place.above().ifPresent(notReached -> map.put("notReached", notReached));
    map.put("exactly", place.exactly());
    return map;
  }
}
