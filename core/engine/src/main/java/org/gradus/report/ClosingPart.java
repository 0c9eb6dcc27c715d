package org.gradus.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.gradus.capacity.Capacity;
import org.gradus.protocol.Attribute;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Signature;
import org.gradus.report.Block.Sources;
import org.gradus.report.Block.Warning;
import org.gradus.session.Outcome;

/** What has to be kept in mind, and where everything comes from. */
final class ClosingPart {

  private final Outcome outcome;
  private final Capacity capacity;
  private final Particulars about;
  private final References references;

  ClosingPart(Outcome outcome, Capacity capacity, Particulars about, References references) {
    this.outcome = outcome;
    this.capacity = capacity;
    this.about = about;
    this.references = references;
  }

  /** What matters for this person: the first page ends with it. */
  Section cautions() {
    Set<String> cautions = new LinkedHashSet<>();
    if (outcome
        .person()
        .value(Attribute.LOWERS_HEART_RATE)
        .filter(value -> value.amount() == 1)
        .isPresent()) {
      cautions.add("The person takes medicine that slows the heart: heart rates say less.");
    }
    capacity.findings().forEach(finding -> cautions.add(finding.toString()));
    capacity.headline().ifPresent(best -> cautions.addAll(best.cautions()));
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Items(List.copyOf(cautions)));
    blocks.add(new Warning(Report.CAUTION));
    blocks.add(
        new Signature(
            List.of("Date", about.tester().map("Signature of "::concat).orElse("Signature"))));
    return Section.first("Cautions", blocks);
  }

  /** Everything that was cited, by its number, and how much more the protocol draws on. */
  Section sources() {
    List<Block> blocks = new ArrayList<>();
    List<String> cited = references.texts();
    blocks.add(new Sources(cited));
    long others =
        outcome.protocol().heading().sources().stream()
            .filter(source -> !cited.contains(source.text()))
            .count();
    if (others > 0) {
      blocks.add(
          new Paragraph(
              "The file of the protocol names "
                  + others
                  + " more, for rules and figures that this report does not show."));
    }
    return Section.details("Sources", blocks);
  }
}
