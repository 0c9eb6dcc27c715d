package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.AuthorNotes;
import org.gradus.protocol.AuthorNotes.Acceptance;
import org.gradus.protocol.AuthorNotes.Usual;
import org.gradus.rule.syntax.Sentence;
import org.gradus.unit.Kind;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;

/** Reads and joins the notes to reviewers. */
final class NotesReader {

  private static final String TEST_TIME = "test.time";

  private final ScalarParser texts;

  NotesReader(ScalarParser texts) {
    this.texts = texts;
  }

  /** Within what things usually lie. Whether they exist is known once sets are joined. */
  void usual(Keys keys, Draft draft) {
    for (Entry entry : keys.entries("usual")) {
      Keys.of(entry.value(), "what is usual", texts.problems())
          .ifPresent(
              inner -> {
                Optional<QuantityRange> range = inner.needText("range").flatMap(texts::range);
                Citation source = texts.source(inner);
                inner.done();
                range.ifPresent(
                    ends ->
                        draft.usual.put(
                            entry.key().value(),
                            new Placed<>(entry.key().span(), new Usual(ends, source))));
              });
    }
  }

  /** What the author accepts. */
  void accept(Keys keys, Draft draft) {
    for (YamlNode item : keys.items("accept")) {
      Keys.of(item, "an accepted finding", texts.problems())
          .ifPresent(
              inner -> {
                Optional<Scalar> finding = inner.needText("finding");
                List<Scalar> of = inner.texts("of");
                Optional<Scalar> reason = inner.needText("reason");
                inner.done();
                if (finding.isPresent() && reason.isPresent()) {
                  List<Optional<Scalar>> each =
                      of.isEmpty()
                          ? List.of(Optional.empty())
                          : of.stream().map(Optional::of).toList();
                  each.forEach(
                      one ->
                          draft.accepted.add(
                              new Acceptance(
                                  finding.get().value(),
                                  one.map(Scalar::value),
                                  ScalarParser.string(reason),
                                  one.orElse(finding.get()).span())));
                }
              });
    }
  }

  /** The notes of a draft whose includes are joined. */
  static AuthorNotes notes(Draft draft, Shelf shelf, Problems problems) {
    Map<String, Span> places = new LinkedHashMap<>();
    draft.stages.forEach(stage -> places.put("stage " + stage.id(), stage.where()));
    draft.settings.forEach((name, placed) -> places.put("setting " + name, placed.where()));
    draft.defines.forEach((name, placed) -> places.put("define " + name, placed.where()));
    draft.signals.forEach((name, placed) -> places.put("signal " + name, placed.where()));
    draft.loads.forEach((name, placed) -> places.put("load " + name, placed.where()));
    draft.signs.forEach((name, placed) -> places.put("sign " + name, placed.where()));
    draft.tables.forEach((name, placed) -> places.put("table " + name, placed.where()));
    draft.questions.forEach((name, placed) -> places.put("input " + name, placed.where()));
    draft.estimates.forEach(estimate -> places.put("estimate " + estimate.id(), estimate.where()));
    Map<String, Usual> usual = new LinkedHashMap<>();
    draft.usual.forEach(
        (name, placed) -> {
          check(name, placed, draft, shelf, problems);
          usual.put(name, placed.value());
        });
    Set<String> falls =
        draft.stages.stream()
            .filter(StageDraft::falls)
            .map(StageDraft::id)
            .collect(Collectors.toUnmodifiableSet());
    return new AuthorNotes(
        draft.header.where(),
        places,
        usual,
        draft.replaced,
        draft.dropped,
        draft.accepted,
        falls,
        mixed(draft));
  }

  private static Map<String, Span> mixed(Draft draft) {
    Map<String, Span> mixed = new LinkedHashMap<>();
    for (RuleDraft rule : draft.rules()) {
      rule.sentence()
          .flatMap(Sentence::when)
          .flatMap(MixedLogic::in)
          .ifPresent(part -> mixed.put(rule.id(), part));
    }
    draft.defines.forEach(
        (name, placed) ->
            MixedLogic.in(placed.value().body()).ifPresent(part -> mixed.put(name, part)));
    return mixed;
  }

  private static void check(
      String name, Placed<Usual> usual, Draft draft, Shelf shelf, Problems problems) {
    Map<String, Kind> known = shelf.equipment.kinds();
    known.put(TEST_TIME, Kind.TIME);
    draft.signals.forEach(
        (signal, placed) -> {
          if (placed.value().type() instanceof Type.Measure measure) {
            known.put(signal, measure.kind());
          }
        });
    Optional<Kind> kind = Optional.ofNullable(known.get(name));
    if (kind.isEmpty() && draft.isWhole("signals", "measure")) {
      List<String> names = new ArrayList<>(known.keySet());
      String help = problems.help(name, names, "these are " + String.join(", ", names));
      problems.add(usual.where(), Code.G309, "signal or load", name, help);
    } else if (kind.isPresent() && usual.value().range().low().kind() != kind.get()) {
      problems.add(
          usual.where(),
          Code.G305,
          usual.value().range().toString(),
          kind.get().phrase(),
          kind.get().remedy());
    }
  }
}
