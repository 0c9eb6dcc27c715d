package org.gradus.cases;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.cases.Expected.Figure;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;
import org.gradus.library.Keys;
import org.gradus.library.YamlNode;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Attribute;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** Reads a file of cases. */
final class CaseFile {

  private static final Set<String> POSTURES = Set.of("resting", "upright");

  private final Problems problems = new Problems();
  private final Map<String, Participant> people = new LinkedHashMap<>();
  private final StepReader steps = new StepReader(problems);

  private CaseFile() {}

  static Cases read(SourceFile file) {
    CaseFile reader = new CaseFile();
    Optional<Cases> cases = Keys.of(file, reader.problems).map(reader::cases);
    reader.problems.throwIfAny();
    return cases.orElseThrow();
  }

  private Cases cases(Keys keys) {
    keys.needText("format").ifPresent(text -> oneOf(text, List.of("1")));
    keys.needText("kind").ifPresent(text -> oneOf(text, List.of("cases")));
    String protocol = keys.needText("for").map(Scalar::value).orElse("");
    for (Entry entry : keys.entries("people")) {
      people.put(entry.key().value(), participant(entry.value()));
    }
    List<Case> cases = new ArrayList<>();
    for (YamlNode item : keys.items("cases")) {
      Keys.of(item, "a case", problems).ifPresent(inner -> cases.add(one(inner, protocol)));
    }
    keys.done();
    return new Cases(protocol, cases);
  }

  private Case one(Keys keys, String protocol) {
    String id = keys.needText("id").map(Scalar::value).orElse("");
    String about = keys.text("about").map(Scalar::value).orElse("");
    Participant person = keys.take("person").map(this::participant).orElse(Participant.NOBODY);
    Map<String, String> settings = texts(keys, "settings");
    boolean begins =
        keys.text("begin")
            .map(text -> oneOf(text, List.of("yes", "no")))
            .orElse("yes")
            .equals("yes");
    Map<String, String> changes = texts(keys, "change");
    List<CaseStep> told = new ArrayList<>();
    for (YamlNode item : keys.items("events")) {
      Keys.of(item, "an event", problems).flatMap(steps::step).ifPresent(told::add);
    }
    Optional<Keys> expectation = keys.keys("expect", "what is expected");
    Expected expected = expectation.map(this::expected).orElse(Expected.NOTHING);
    expectation.ifPresent(where -> errors(expected, !changes.isEmpty(), told, where.start()));
    keys.done();
    return new Case(id, about, protocol, person, settings, begins, changes, told, expected);
  }

  // Errors come of a change; with them there is no protocol that anything else could happen to.
  private void errors(Expected expected, boolean changed, List<CaseStep> steps, Span where) {
    if (expected.errors().isEmpty()) {
      return;
    }
    if (!changed) {
      problems.add(
          where,
          Code.G304,
          "a change for these errors",
          "none",
          "say under change which texts of the file become others");
    }
    boolean refused = !expected.errors().get().isEmpty();
    if (refused && !(steps.isEmpty() && expected.isOfErrorsOnly())) {
      problems.add(
          where,
          Code.G304,
          "errors alone",
          "more",
          "a file that is refused is not played: move events and other expectations to a case of"
              + " their own");
    }
  }

  // A name of someone above, or someone described here.
  private Participant participant(YamlNode node) {
    if (node instanceof Scalar name) {
      return like(name);
    }
    return Keys.of(node, "a person", problems).map(this::participant).orElse(Participant.NOBODY);
  }

  private Participant participant(Keys keys) {
    Participant model = keys.text("like").map(this::like).orElse(Participant.NOBODY);
    Map<String, String> resting = texts(keys, "resting");
    Map<String, String> upright = texts(keys, "upright");
    List<Scalar> without = keys.texts("without");
    List<Entry> rest = keys.rest();
    rest.forEach(this::strict);
    Map<String, String> facts = StepReader.values(rest, keys);
    keys.done();
    Participant whole = model.with(new Participant(facts, resting, upright));
    Map<String, String> left = new LinkedHashMap<>(whole.facts());
    without.forEach(name -> left.remove(name.value()));
    Set<String> gone =
        Set.copyOf(without.stream().map(Scalar::value).filter(POSTURES::contains).toList());
    return new Participant(
        left,
        gone.contains("resting") ? Map.of() : whole.resting(),
        gone.contains("upright") ? Map.of() : whole.upright());
  }

  // What every protocol knows of a person is checked here; the rest where the protocol is known.
  private void strict(Entry fact) {
    Optional<Attribute> attribute = Attribute.named(fact.key().value());
    if (attribute.isEmpty() || !(fact.value() instanceof Scalar text)) {
      return;
    }
    Type type = attribute.get().type();
    if (type instanceof Type.Measure measure) {
      Optional<Quantity> value = RuleText.quantity(text.span(), problems);
      value
          .filter(found -> found.kind() != measure.kind())
          .ifPresent(
              found ->
                  problems.add(
                      text.span(),
                      Code.G305,
                      text.value(),
                      measure.kind().phrase(),
                      "give it in units such as " + measure.kind().base().symbol()));
    } else if (type instanceof Type.Choice choice) {
      oneOf(text, choice.options());
    } else {
      oneOf(text, CaseTeller.ANSWERS);
    }
  }

  private Participant like(Scalar name) {
    Participant model = people.get(name.value());
    if (model == null) {
      problems.add(
          name.span(),
          Code.G309,
          "person",
          name.value(),
          problems.help(name.value(), people.keySet(), "describe the person under people"));
      return Participant.NOBODY;
    }
    return model;
  }

  private Map<String, String> texts(Keys keys, String key) {
    return StepReader.values(keys.entries(key), keys);
  }

  private Expected expected(Keys keys) {
    Map<String, Figure> estimates = figures(keys, "estimates", "an estimate", "vo2max");
    Map<String, Figure> results = figures(keys, "results", "a result", "value");
    Expected expected =
        new Expected(
            keys.text("phase").map(Scalar::value),
            keys.text("ending").map(Scalar::value),
            keys.text("headline").map(Scalar::value),
            estimates,
            results,
            keys.has("errors")
                ? Optional.of(keys.texts("errors").stream().map(Scalar::value).toList())
                : Optional.empty());
    keys.done();
    return expected;
  }

  private Map<String, Figure> figures(Keys keys, String list, String what, String figure) {
    Map<String, Figure> figures = new LinkedHashMap<>();
    for (Entry entry : keys.entries(list)) {
      Keys.of(entry.value(), what, problems)
          .ifPresent(inner -> figures.put(entry.key().value(), figure(inner, figure)));
    }
    return figures;
  }

  private Figure figure(Keys keys, String name) {
    Optional<Scalar> text = keys.text(name);
    Optional<Quantity> value =
        text.filter(some -> !some.value().equals("none"))
            .flatMap(some -> RuleText.quantity(some.span(), problems));
    Optional<Double> within =
        keys.text("within")
            .flatMap(some -> RuleText.quantity(some.span(), problems))
            .map(Quantity::amount);
    String source = keys.text("source").map(Scalar::value).orElse("");
    keys.done();
    if (text.isEmpty() || (value.isPresent() && within.isEmpty())) {
      Span where = keys.start();
      problems.add(
          where,
          Code.G304,
          name + " with within, or " + name + ": none",
          "less",
          "say what is expected, and how far off it may be");
    }
    return new Figure(value, within.orElse(0.0), source);
  }

  private String oneOf(Scalar text, List<String> words) {
    if (!words.contains(text.value())) {
      problems.add(
          text.span(),
          Code.G305,
          text.value(),
          "one of " + String.join(", ", words),
          problems.help(text.value(), words, "choose one of them"));
    }
    return text.value();
  }
}
