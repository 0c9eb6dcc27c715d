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
  private final Words words;

  ClosingPart(
      Outcome outcome, Capacity capacity, Particulars about, References references, Words words) {
    this.outcome = outcome;
    this.capacity = capacity;
    this.about = about;
    this.references = references;
    this.words = words;
  }

  /** What matters for this person: the first page ends with it. */
  Section cautions() {
    Set<String> cautions = new LinkedHashSet<>();
    if (outcome
        .person()
        .value(Attribute.LOWERS_HEART_RATE)
        .filter(value -> value.amount() == 1)
        .isPresent()) {
      cautions.add(words.say(ReportMessage.SLOWED_HEART));
    }
    capacity.findings().forEach(finding -> cautions.add(words.say(finding.message())));
    capacity
        .headline()
        .ifPresent(best -> best.warnings().forEach(warning -> cautions.add(words.say(warning))));
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Items(List.copyOf(cautions)));
    blocks.add(
        new Warning(words.say(ReportMessage.CAUTION), words.say(ReportMessage.CAUTION_ALWAYS)));
    blocks.add(
        new Signature(
            List.of(
                words.say(ReportMessage.SIGNATURE_DATE),
                about
                    .tester()
                    .map(who -> words.say(ReportMessage.SIGNATURE_OF, who))
                    .orElseGet(() -> words.say(ReportMessage.SIGNATURE)))));
    return Section.first(words.say(ReportMessage.CAUTIONS_TITLE), blocks);
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
      blocks.add(new Paragraph(words.say(ReportMessage.MORE_SOURCES, (int) others)));
    }
    return Section.details(words.say(ReportMessage.SOURCES_TITLE), blocks);
  }
}
