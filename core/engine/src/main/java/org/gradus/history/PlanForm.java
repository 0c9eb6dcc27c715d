package org.gradus.history;

import static org.gradus.history.DecisionForm.RANGE;
import static org.gradus.history.Form.QUANTITY;
import static org.gradus.history.Form.TEXT;
import static org.gradus.history.Form.TRUTH;
import static org.gradus.history.Form.WHOLE;
import static org.gradus.history.Form.maybe;
import static org.gradus.history.Form.named;
import static org.gradus.history.Form.part;
import static org.gradus.history.Form.parts;
import static org.gradus.history.Form.whole;
import static org.gradus.history.MessageForm.MESSAGE;
import static org.gradus.history.ReasonForm.CITATION;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.gradus.capacity.Standing;
import org.gradus.knowledge.Band;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.Exercise;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.NormTable;
import org.gradus.knowledge.WeeklyVolume;
import org.gradus.training.BandPlan;
import org.gradus.training.LoadPlan;
import org.gradus.training.Range;
import org.gradus.training.Training;

/**
 * Training plans and places among norms as JSON. What stands in a file of the library stands here
 * by its id, with its title for a screen; it is looked up when it is read.
 */
final class PlanForm {

  private static final Form<Range> SPAN =
      whole(
          got -> new Range(got.at(0), got.at(1)),
          maybe("from", Range::from, QUANTITY),
          maybe("to", Range::to, QUANTITY));

  private static final Form<WeeklyVolume> VOLUME =
      whole(
          got -> new WeeklyVolume(got.at(0), got.at(1), got.at(2)),
          part("metMinutes", WeeklyVolume::metMinutes, RANGE),
          part("minutes", WeeklyVolume::minutes, named(QUANTITY)),
          part("source", WeeklyVolume::source, CITATION));

  private static final Form<Standing.Place> PLACE =
      whole(
          got -> new Standing.Place(got.at(0), got.at(1), got.at(2)),
          maybe("below", Standing.Place::below, WHOLE),
          maybe("above", Standing.Place::above, WHOLE),
          part("exactly", Standing.Place::exactly, TRUTH));

  private PlanForm() {}

  /** A plan by some bands; none are needed to write it. */
  static Form<Training> training(List<IntensityBands> bands) {
    List<Band> known = bands.stream().flatMap(one -> one.bands().stream()).toList();
    List<Exercise> exercises = bands.stream().flatMap(one -> one.exercises().stream()).toList();
    Form<Exercise> exercise =
        filed("exercise", exercises, Exercise::id, Exercise::title, Exercise::source);
    return whole(
        got -> new Training(got.at(0), got.at(1), got.at(2), got.at(3), got.at(4)),
        part("bands", Training::bands, bands(bands)),
        maybe("withheld", Training::whyWithheld, MESSAGE),
        parts("plans", Training::plans, plan(known, load(exercise))),
        maybe("volume", Training::volume, VOLUME),
        parts("remarks", Training::notes, MESSAGE));
  }

  private static Form<IntensityBands> bands(List<IntensityBands> known) {
    return whole(
        got ->
            known.stream()
                .filter(one -> one.id().equals(got.at(0)) && one.version().equals(got.at(1)))
                .findFirst()
                .orElseThrow(
                    () ->
                        got.from()
                            .unreadable(
                                "id",
                                "is "
                                    + got.<String>at(0)
                                    + " "
                                    + got.<String>at(1)
                                    + ", and given are "
                                    + known.stream()
                                        .map(one -> one.id() + " " + one.version())
                                        .toList())),
        part("id", IntensityBands::id, TEXT),
        part("version", IntensityBands::version, TEXT),
        part("title", IntensityBands::title, TEXT),
        part("scale", IntensityBands::scale, TEXT));
  }

  private static Form<BandPlan> plan(List<Band> bands, Form<LoadPlan> load) {
    return whole(
        got ->
            new BandPlan(
                got.at(0), got.at(1), got.at(2), got.at(3), got.at(4), got.at(5), got.at(6),
                got.at(7), got.at(8), got.at(9)),
        part("band", BandPlan::band, filed("band", bands, Band::id, Band::id, Band::source)),
        maybe("heartRate", BandPlan::heartRate, SPAN),
        maybe("heartRateBy", BandPlan::heartRateBy, TEXT),
        maybe("uptake", BandPlan::uptake, SPAN),
        maybe("uptakeBy", BandPlan::uptakeBy, TEXT),
        maybe("mets", BandPlan::mets, SPAN),
        maybe("energy", BandPlan::energy, SPAN),
        maybe("rating", BandPlan::rating, SPAN),
        parts("loads", BandPlan::loads, load),
        maybe("weekly", BandPlan::weekly, QUANTITY));
  }

  private static Form<LoadPlan> load(Form<Exercise> exercise) {
    Map<String, Form.Parts<? extends LoadPlan>> forms = new LinkedHashMap<>();
    forms.put(
        "reachable",
        whole(
            got -> new LoadPlan.Reachable(got.at(0), got.at(1), got.at(2)),
            part("exercise", LoadPlan.Reachable::exercise, exercise),
            part("load", LoadPlan.Reachable::load, SPAN),
            maybe("remark", LoadPlan.Reachable::remark, MESSAGE),
            part("setting", LoadPlan.Reachable::setting, SPAN),
            part("words", LoadPlan.Reachable::message, MESSAGE)));
    forms.put(
        "not_reachable",
        whole(
            got -> new LoadPlan.NotReachable(got.at(0), got.at(1)),
            part("exercise", LoadPlan.NotReachable::exercise, exercise),
            part("reason", LoadPlan.NotReachable::reason, MESSAGE)));
    return Form.oneOf(
        "is",
        load -> load instanceof LoadPlan.Reachable ? "reachable" : "not_reachable",
        forms,
        "is neither reachable nor not_reachable");
  }

  /** A place among the figures of some tables; none are needed to write it. */
  static Form<Standing> standing(List<NormTable> tables) {
    Form<NormTable> table =
        filed("table", tables, NormTable::id, NormTable::edition, NormTable::source);
    Map<String, Form.Parts<? extends Standing>> forms = new LinkedHashMap<>();
    forms.put(
        "among_percentiles",
        whole(
            got ->
                new Standing.AmongPercentiles(
                    got.at(0), got.at(1), got.at(2), got.at(3), got.at(4)),
            part("table", Standing.AmongPercentiles::table, table),
            part("value", Standing.AmongPercentiles::value, QUANTITY),
            part("at", Standing.AmongPercentiles::at, PLACE),
            maybe("low", Standing.AmongPercentiles::low, PLACE),
            maybe("high", Standing.AmongPercentiles::high, PLACE),
            part("words", Standing.AmongPercentiles::message, MESSAGE)));
    forms.put(
        "in_class",
        whole(
            got -> new Standing.InClass(got.at(0), got.at(1), got.at(2), got.at(3)),
            part("table", Standing.InClass::table, table),
            part("value", Standing.InClass::value, QUANTITY),
            part("name", Standing.InClass::name, TEXT),
            maybe("remark", Standing.InClass::remark, MESSAGE),
            part("words", Standing.InClass::message, MESSAGE)));
    forms.put(
        "nowhere",
        whole(
            got -> new Standing.Nowhere(got.at(0), got.at(1)),
            part("table", Standing.Nowhere::table, table),
            part("reason", Standing.Nowhere::reason, MESSAGE)));
    return Form.oneOf("is", PlanForm::kind, forms, "is no place among norms");
  }

  private static String kind(Standing standing) {
    return standing.match(
        percentiles -> "among_percentiles", named -> "in_class", nowhere -> "nowhere");
  }

  /** Something of a file, by its id. */
  private static <T> Form<T> filed(
      String what,
      List<T> known,
      Function<T, String> id,
      Function<T, String> title,
      Function<T, Citation> source) {
    return whole(
        got ->
            known.stream()
                .filter(one -> id.apply(one).equals(got.at(0)))
                .findFirst()
                .orElseThrow(
                    () ->
                        got.from()
                            .unreadable(
                                "id", "is no " + what + " of these files: " + got.<String>at(0))),
        part("id", id, TEXT),
        part("title", title, TEXT),
        part("source", source, CITATION));
  }
}
