package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Standing;
import org.gradus.knowledge.NormTable;
import org.gradus.protocol.Attribute;
import org.gradus.report.Block.Answer;
import org.gradus.report.Block.Cell;
import org.gradus.report.Block.Items;
import org.gradus.report.Block.Paragraph;
import org.gradus.report.Block.Picture;
import org.gradus.report.Block.Table;
import org.gradus.report.Block.Warning;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Name;

/** What came out: the answer, how sure it is, whether it is plausible, where it stands. */
final class ResultPart {

  private static final String VO2MAX = "vo2max";

  private final Capacity capacity;
  private final List<NormTable> norms;
  private final List<Standing> standings;
  private final List<OtherWay> otherWays;
  private final References references;
  private final Words words;

  ResultPart(
      Capacity capacity,
      List<NormTable> norms,
      List<OtherWay> otherWays,
      References references,
      Words words) {
    this.capacity = capacity;
    this.otherWays = otherWays;
    this.norms = norms;
    this.standings = capacity.standings(norms);
    this.references = references;
    this.words = words;
  }

  /** A result as it stands in a picture. */
  static ScaleChart.Span span(String label, Estimate.Available best) {
    double value = best.vo2max().base();
    return new ScaleChart.Span(
        label,
        best.interval().map(around -> around.low().base()).orElse(value),
        value,
        best.interval().map(around -> around.high().base()).orElse(value));
  }

  Section answer() {
    List<Block> blocks = new ArrayList<>();
    Optional<Estimate.Available> best = capacity.headline();
    if (best.isPresent()) {
      Quantity vo2max = best.get().vo2max();
      Quantity mets = Quantity.ofBase(vo2max.base(), Unit.MET).rounded(1);
      blocks.add(
          new Answer(
              words.say(Joined.BRACKETS, vo2max.rounded(1), mets),
              best.get()
                  .interval()
                  .map(around -> words.say(ReportMessage.INTERVAL, around.message()))
                  .orElseGet(() -> words.say(ReportMessage.ERROR_NOT_KNOWN))));
      blocks.add(new Paragraph(words.say(ReportMessage.ESTIMATED_BY, new Name(best.get().id()))));
      blocks.add(new Picture(chart(best.get())));
    } else {
      blocks.add(new Paragraph(words.say(ReportMessage.NO_CAPACITY)));
    }
    otherWays.forEach(way -> otherResult(way).ifPresent(blocks::add));
    if (!standings.isEmpty()) {
      blocks.add(
          new Items(
              standings.stream()
                  .map(
                      standing ->
                          words.say(Joined.COLON, name(standing.table()), standing.message()))
                  .toList()));
    }
    if (!capacity.findings().isEmpty()) {
      blocks.add(
          new Warning(
              words.say(ReportMessage.CAUTION), words.say(ReportMessage.SECOND_LOOK_NEEDED)));
    }
    return Section.first(words.say(ReportMessage.RESULT_TITLE), blocks);
  }

  // What counts for whoever signs; the rest is among the details.
  private Optional<Paragraph> otherResult(OtherWay way) {
    Optional<String> counts = capacity.headline().map(Estimate.Available::id);
    return way.otherThan(capacity).stream()
        .filter(both -> counts.equals(Optional.of(both.here().id())))
        .findFirst()
        .map(
            both ->
                new Paragraph(
                    words.say(
                        ReportMessage.OTHER_RESULT,
                        new Name(way.setting().name()),
                        new Name(way.word()),
                        shown(both.there()),
                        Unit.ML_PER_KG_PER_MINUTE.symbol())));
  }

  private String shown(Estimate.Available estimate) {
    String value = plain(estimate.vo2max());
    return estimate
        .interval()
        .map(
            around ->
                words.say(
                    Joined.BRACKETS,
                    value,
                    words.say(ReportMessage.RANGE, plain(around.low()), plain(around.high()))))
        .orElse(value);
  }

  private static String plain(Quantity uptake) {
    return Quantity.plain(uptake.rounded(1).amount());
  }

  private ScaleChart chart(Estimate.Available best) {
    List<ScaleChart.Marks> rows = new ArrayList<>();
    for (Standing standing : standings) {
      if (standing.table().of().equals(VO2MAX)
          && standing.table().rows() instanceof NormTable.Percentiles percentiles) {
        group(standing.table())
            .ifPresent(group -> rows.add(marks(standing.table(), percentiles, group)));
      }
    }
    return new ScaleChart(
        words.say(rows.isEmpty() ? ReportMessage.RESULT_CHART : ReportMessage.RESULT_CHART_PEOPLE),
        Unit.ML_PER_KG_PER_MINUTE.symbol(),
        List.of(span(words.say(ReportMessage.THIS_TEST), best)),
        rows,
        words);
  }

  private Optional<Integer> group(NormTable table) {
    Optional<Quantity> age = capacity.facts().person().value(Attribute.AGE);
    for (int group = 0; age.isPresent() && group < table.ages().size(); group++) {
      NormTable.Ages ages = table.ages().get(group);
      if (ages.from() <= age.get().base() && age.get().base() < ages.to() + 1) {
        return Optional.of(group);
      }
    }
    return Optional.empty();
  }

  private ScaleChart.Marks marks(NormTable table, NormTable.Percentiles percentiles, int group) {
    NormTable.Ages ages = table.ages().get(group);
    return new ScaleChart.Marks(
        table
            .ergometer()
            .map(
                on ->
                    words.say(
                        ReportMessage.PERCENTILES_ON,
                        ages.from(),
                        ages.to(),
                        new FileText(on),
                        table.edition()))
            .orElseGet(
                () ->
                    words.say(ReportMessage.PERCENTILES, ages.from(), ages.to(), table.edition())),
        percentiles.rows().stream()
            .map(
                row ->
                    new ScaleChart.Mark(
                        Integer.toString(row.percent()), row.values().get(group).base()))
            .toList());
  }

  private String name(NormTable table) {
    String of =
        table.of().equals(VO2MAX)
            ? words.say(ReportMessage.AEROBIC_CAPACITY)
            : words.name(table.of());
    return table
        .ergometer()
        .map(on -> words.say(ReportMessage.TABLE_ON, of, new FileText(on), table.edition()))
        .orElseGet(() -> words.say(ReportMessage.TABLE_EDITION, of, table.edition()));
  }

  Section estimates() {
    List<Block> blocks = new ArrayList<>();
    List<OtherWay> ways =
        otherWays.stream().filter(way -> !way.otherThan(capacity).isEmpty()).toList();
    List<String> heads = new ArrayList<>();
    heads.addAll(
        words.heads(
            ReportMessage.ESTIMATE, ReportMessage.AEROBIC_CAPACITY, ReportMessage.INTERVAL_OR_WHY));
    for (OtherWay way : ways) {
      Name setting = new Name(way.setting().name());
      heads.add(words.say(ReportMessage.OTHER_WAY, setting, new Name(way.word())));
    }
    heads.addAll(words.heads(ReportMessage.ASSUMES, ReportMessage.SOURCE));
    List<List<String>> rows = capacity.estimates().stream().map(one -> row(one, ways)).toList();
    blocks.add(Table.of(words.say(ReportMessage.ESTIMATES_TABLE), heads, rows));
    capacity.headline().ifPresent(best -> detail(best, blocks));
    return Section.details(words.say(ReportMessage.ESTIMATES_TITLE), blocks);
  }

  private List<String> row(Estimate estimate, List<OtherWay> ways) {
    List<String> row = new ArrayList<>();
    row.add(
        words.say(
            estimate.secondLook() ? ReportMessage.SECOND_LOOK : Joined.ALONE,
            new Name(estimate.id())));
    String assumes = "";
    if (estimate instanceof Estimate.Available available) {
      row.add(words.say(available.vo2max().rounded(1)));
      row.add(
          available
              .interval()
              .map(found -> words.say(found.message()))
              .orElseGet(() -> words.say(ReportMessage.NOT_KNOWN)));
      assumes = words.text(available.assumes());
    } else {
      row.add(words.say(ReportMessage.NONE));
      row.add(estimate.lacks().stream().map(words::say).collect(Collectors.joining("; ")));
    }
    for (OtherWay way : ways) {
      row.add(
          way.otherThan(capacity).stream()
              .filter(both -> both.here().id().equals(estimate.id()))
              .findFirst()
              .map(both -> shown(both.there()))
              .orElse(""));
    }
    row.add(assumes);
    row.add(references.number(estimate.source()));
    return row;
  }

  private void detail(Estimate.Available best, List<Block> blocks) {
    blocks.add(new Paragraph(words.say(ReportMessage.WORKED_OUT, best.calculation())));
    blocks.add(
        Table.of(
            words.say(ReportMessage.RESTS_ON),
            words.heads(
                ReportMessage.WHAT,
                ReportMessage.VALUE,
                ReportMessage.METHOD_HOW,
                ReportMessage.SPREAD,
                ReportMessage.SOURCE),
            best.ingredients().stream()
                .map(
                    part ->
                        List.of(
                            words.say(part.label()),
                            words.say(part.shown()),
                            words.say(part.method()),
                            part.spread().map(words::say).orElse("–"),
                            references.number(part.source())))
                .toList()));
    best.interval().ifPresent(around -> interval(around, blocks));
    best.publishedError()
        .ifPresent(
            error ->
                blocks.add(
                    new Paragraph(
                        words.say(
                            ReportMessage.PUBLISHED_ERROR,
                            error.sd(),
                            (error.note().isEmpty() ? "" : ", " + words.text(error.note()))
                                + references.behind(error.source())))));
  }

  private void interval(Interval around, List<Block> blocks) {
    blocks.add(
        new Paragraph(
            around.basis() == Interval.Basis.PUBLISHED
                ? words.say(ReportMessage.INTERVAL_PUBLISHED, around.propagated().rounded(1))
                : around.model().base() > 0
                    ? words.say(ReportMessage.INTERVAL_WITH_MODEL, around.model().rounded(1))
                    : words.say(ReportMessage.INTERVAL_WITHOUT_MODEL)));
    blocks.add(
        new Table(
            words.say(ReportMessage.INTERVAL_TABLE),
            words.heads(
                ReportMessage.ERROR_SOURCE,
                ReportMessage.SD,
                ReportMessage.SHARE_OF_VARIANCE,
                ReportMessage.SOURCE),
            around.shares().stream()
                .map(
                    share ->
                        List.of(
                            new Cell(words.say(share.label())),
                            new Cell(words.say(share.sd().rounded(1))),
                            new Cell(share.percent() + " %", "", share.percent()),
                            new Cell(
                                share.source().isNamed()
                                    ? references.number(share.source())
                                    : words.say(ReportMessage.HALF_STEP))))
                .toList()));
    if (!around.nearLinear()) {
      blocks.add(
          new Warning(words.say(ReportMessage.CAUTION), words.say(ReportMessage.NOT_LINEAR)));
    }
  }

  Section findings() {
    List<String> findings =
        capacity.findings().stream().map(found -> words.say(found.message())).toList();
    return Section.details(
        words.say(ReportMessage.PLAUSIBILITY_TITLE),
        List.of(
            findings.isEmpty()
                ? new Paragraph(words.say(ReportMessage.NOTHING_SUSPICIOUS))
                : new Items(findings)));
  }

  /** Where the result stands in each table; empty where no tables were given. */
  Optional<Section> standings() {
    if (norms.isEmpty()) {
      return Optional.empty();
    }
    List<List<String>> rows = new ArrayList<>();
    for (Standing standing : standings) {
      NormTable table = standing.table();
      rows.add(
          List.of(
              name(table),
              words.say(standing.message()),
              table.notes().stream().map(words::text).collect(Collectors.joining(" ")),
              references.number(table.source())));
    }
    return Optional.of(
        Section.details(
            words.say(ReportMessage.NORMS_TITLE),
            List.of(
                rows.isEmpty()
                    ? new Paragraph(words.say(ReportMessage.NO_NORMS))
                    : Table.of(
                        words.say(ReportMessage.NORMS_TABLE),
                        words.heads(
                            ReportMessage.TABLE,
                            ReportMessage.STANDS_AT,
                            ReportMessage.NOTES,
                            ReportMessage.SOURCE),
                        rows))));
  }
}
