package org.gradus.examples.quickstart;

import java.util.ArrayList;
import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Estimate.Available;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.EstimateLine.Covers;
import org.gradus.protocol.EstimateLine.PublishedError;

/**
 * Writes down the result: the estimates, what the first one rests on, and the sources by number.
 */
final class ShowResult {

  private final StringBuilder out = new StringBuilder("\n");
  private final List<Citation> sources = new ArrayList<>();

  private ShowResult() {}

  static String of(Capacity capacity) {
    ShowResult result = new ShowResult();
    capacity
        .headline()
        .ifPresentOrElse(
            result::headline, () -> result.line("No estimate of aerobic capacity can be made."));
    capacity.estimates().stream()
        .filter(estimate -> capacity.headline().filter(estimate::equals).isEmpty())
        .forEach(result::other);
    result.line("");
    result.line("Sources");
    for (int i = 0; i < result.sources.size(); i++) {
      result.line("[" + (i + 1) + "] " + result.sources.get(i));
    }
    return result.out.toString();
  }

  private void headline(Available estimate) {
    line(
        "Aerobic capacity, estimated by "
            + estimate.id()
            + ": "
            + estimate.vo2max().rounded(1)
            + number(estimate.source()));
    line("  " + estimate.calculation());
    if (!estimate.assumes().isEmpty()) {
      line("  It assumes: " + estimate.assumes());
    }
    line("  It rests on:");
    for (Estimate.Ingredient ingredient : estimate.ingredients()) {
      line(
          "  - "
              + ingredient.name()
              + ": "
              + ingredient.value()
              + "; "
              + ingredient.how()
              + ingredient.spread().map(sd -> ", varies by " + sd + " between people").orElse("")
              + number(ingredient.source()));
    }
    line(
        "  Published standard error: " + estimate.publishedError().map(this::error).orElse("none"));
    estimate.cautions().forEach(caution -> line("  Caution: " + caution));
  }

  private String error(PublishedError error) {
    String in = error.note().isEmpty() ? "" : ", found in " + error.note();
    String covers = error.covers() == Covers.METHOD ? " of the whole method" : " of its inputs";
    return error.sd() + covers + in + number(error.source());
  }

  private void other(Estimate estimate) {
    if (estimate instanceof Available also) {
      line("Also, by " + also.id() + ": " + also.vo2max().rounded(1) + number(also.source()));
    } else {
      line("Not by " + estimate.id() + ": " + String.join("; ", estimate.reasons()));
    }
  }

  private String number(Citation source) {
    if (!sources.contains(source)) {
      sources.add(source);
    }
    return " [" + (sources.indexOf(source) + 1) + "]";
  }

  private void line(String text) {
    out.append(text).append('\n');
  }
}
