package org.gradus.examples.console;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Sign;
import org.gradus.protocol.Signal;
import org.gradus.report.StageRow;
import org.gradus.session.Agenda;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Retold;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Type;
import org.gradus.words.Name;

/** A test at one moment, as the page shows it: values and words, nothing of how they look. */
final class TestView {

  private static final int USUAL_COUNT = 15;

  private final PageWords words;
  private final Session session;
  private final Protocol protocol;
  private final Duration now;
  private final Decision decision;
  private final Outcome outcome;
  private final List<Event> events;
  private final List<Event> counted;
  private final List<Retold> retold;

  TestView(Session session, Duration now, PageWords words) {
    this.words = words;
    this.session = session;
    this.protocol = session.protocol();
    this.now = now;
    this.decision = session.decide(now);
    this.outcome = session.outcome();
    this.events = session.events();
    this.counted = Event.counted(events);
    this.retold = Retold.of(protocol, outcome.person(), events);
  }

  /** What changes by itself when time goes by: the page is told anew when it does. */
  static String told(Session session, Duration now) {
    Decision decision = session.decide(now);
    StringBuilder told = new StringBuilder(token(decision)).append(decision.firmness());
    decision.offers().forEach(offer -> told.append(offer.verdict()));
    decision.cautions().forEach(caution -> told.append(caution.rule()));
    decision.agenda().items().forEach(item -> told.append(item.due()).append(item.state()));
    decision.agenda().cues().forEach(cue -> told.append(cue.at()));
    return told.toString();
  }

  /** What a person has seen who confirms a recommendation. */
  static String token(Decision decision) {
    Verdict verdict = decision.verdict();
    return (verdict instanceof Verdict.NotRecovered ? verdict.word() : verdict.toString())
        + decision.because().map(because -> " " + because.rule()).orElse("");
  }

  Map<String, Object> map() {
    Agenda agenda = decision.agenda();
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("event", events.size());
    map.put("now", now.toMillis() / 1000.0);
    map.put("phase", outcome.phase().name());
    map.put("protocol", words.text(protocol.heading().title()));
    map.put("stopped", outcome.stopped());
    decision.stage().ifPresent(stage -> map.put("stage", words.name(stage)));
    map.put("stageFrom", seconds(since()));
    map.put("load", load());
    map.put("loads", loads());
    agenda.posture().ifPresent(how -> map.put("posture", words.say(how)));
    map.put("decision", decision());
    map.put("items", agenda.items().stream().map(this::item).toList());
    map.put("questions", agenda.questions().stream().map(Sign::prompt).map(words::text).toList());
    map.put(
        "cues",
        agenda.cues().stream()
            .map(cue -> Map.of("at", seconds(cue.at()), "say", words.text(cue.say())))
            .toList());
    map.put("asks", asks(agenda));
    map.put(
        "symptoms",
        agenda.symptoms().stream()
            .map(
                symptom ->
                    Map.of(
                        "name",
                        symptom.sign(),
                        "label",
                        words.name(symptom.sign()),
                        "prompt",
                        words.text(symptom.prompt())))
            .toList());
    agenda
        .next()
        .ifPresent(
            change ->
                map.put(
                    "nextLoad",
                    Map.of(
                        "at",
                        seconds(change.at()),
                        "load",
                        words.say(Loading.message(change.load())))));
    agenda.whenDone().ifPresent(done -> map.put("whenDone", done.names()));
    map.put("signs", signs());
    map.put("stages", stages());
    map.put("rates", rates());
    map.put("pressures", pressures());
    map.put("events", events());
    if (outcome.exerciseHasEnded() || outcome.phase() == Phase.ENDED) {
      map.put("result", result());
    }
    return map;
  }

  private static double seconds(Duration time) {
    return time.toMillis() / 1000.0;
  }

  // When what lasts now began: the test, the stage, or recovery.
  private Duration since() {
    Duration since = Duration.ZERO;
    for (Retold told : retold) {
      if (!told.before().stage().equals(told.answer().stage())
          || told.before().phase() != told.answer().phase()) {
        since = told.event().at();
      }
    }
    return since;
  }

  private String load() {
    return outcome.phase() == Phase.STAGE || outcome.phase() == Phase.RECOVERY
        ? words.say(Loading.message(outcome.load(now)))
        : "";
  }

  // What of the load can be told to be set otherwise.
  private List<Map<String, Object>> loads() {
    List<Map<String, Object>> loads = new ArrayList<>();
    if (outcome.phase() == Phase.STAGE) {
      for (Loading load : outcome.load(now)) {
        loads.add(
            Map.of(
                "name", load.name(),
                "label", words.name(load.name()),
                "value", load.value().in(words.language()),
                "unit", load.value().unit().symbol()));
      }
    }
    return loads;
  }

  private Map<String, Object> decision() {
    Verdict verdict = decision.verdict();
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("kind", verdict.kind().name());
    map.put("word", words.say(verdict.wordMessage()));
    map.put("sentence", sentence(verdict));
    map.put("token", token(decision));
    map.put("does", does(verdict));
    until(verdict).ifPresent(time -> map.put("until", seconds(time)));
    decision.because().ifPresent(because -> map.put("why", why(because)));
    map.put("couldFlip", decision.firmness().couldFlip());
    map.put("reasons", reasons(verdict));
    List<Map<String, Object>> offers = new ArrayList<>();
    decision
        .offers()
        .forEach(
            offer ->
                offers.add(
                    Map.of(
                        "sentence",
                        DecisionSentence.of(offer.verdict(), protocol, words),
                        "why",
                        words.say(offer.because().message()))));
    map.put("offers", offers);
    map.put(
        "cautions",
        decision.cautions().stream().map(Because::message).map(words::say).distinct().toList());
    map.put(
        "unchecked",
        decision.unchecked().stream()
            .flatMap(rule -> rule.gaps().stream())
            .map(gap -> words.say(gap.message()))
            .distinct()
            .toList());
    return map;
  }

  private String sentence(Verdict verdict) {
    return verdict instanceof Verdict.Measure && outcome.phase() == Phase.BEFORE
        ? words.say("Not ready yet. Still missing:")
        : DecisionSentence.of(verdict, protocol, words);
  }

  // To go on or to measure is followed by doing nothing else.
  private static boolean does(Verdict verdict) {
    return switch (verdict.kind()) {
      case CONTINUE, MEASURE, OVER -> false;
      case READY, DEFER, HOLD, CHANGE, ADVANCE, FINISH, STOP, END, NOT_RECOVERED -> true;
    };
  }

  private static Optional<Duration> until(Verdict verdict) {
    if (verdict instanceof Verdict.Continue goOn) {
      return Optional.of(goOn.until());
    } else if (verdict instanceof Verdict.Hold hold) {
      return Optional.of(hold.until());
    }
    return verdict instanceof Verdict.Measure measure ? measure.until() : Optional.empty();
  }

  private List<String> reasons(Verdict verdict) {
    if (verdict instanceof Verdict.Defer defer) {
      return defer.reasons().stream().map(Because::message).map(words::say).toList();
    } else if (verdict instanceof Verdict.NotRecovered not) {
      return not.conditions().stream().map(words::say).toList();
    }
    return verdict instanceof Verdict.Measure measure
        ? measure.gaps().stream().map(gap -> words.say(gap.message())).distinct().toList()
        : List.of();
  }

  private Map<String, Object> why(Because because) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("rule", because.rule());
    map.put("reason", reason(because));
    map.put("text", because.text());
    because.filled().ifPresent(filled -> map.put("figures", filled.toString()));
    map.put("source", because.source().toString());
    return map;
  }

  // The reason of the file, else the signs that the rule asks for and that are there, else the
  // rule.
  private String reason(Because because) {
    List<String> signs =
        signsThere().keySet().stream()
            .filter(sign -> Pattern.compile("\\b" + sign + "\\b").matcher(because.text()).find())
            .map(words::name)
            .toList();
    return because.why().isEmpty() && !signs.isEmpty()
        ? words.say("Reported: {0}.", String.join(", ", signs))
        : words.say(because.message());
  }

  private Map<String, Object> item(Agenda.Item item) {
    Map<String, Object> map = new LinkedHashMap<>();
    List<Map<String, Object>> entries = new ArrayList<>();
    for (String name : item.names()) {
      int dot = name.indexOf('.');
      entries.add(entry(name.substring(dot + 1)));
      if (dot > 0) {
        map.put("baseline", name.substring(0, dot));
      }
    }
    String names =
        item.names().stream()
            .map(name -> words.name(name.substring(name.indexOf('.') + 1)))
            .collect(Collectors.joining(" " + words.say("and") + " "));
    map.put(
        "name",
        map.containsKey("baseline")
            ? words.say("{0}, {1}", names, words.say(String.valueOf(map.get("baseline"))))
            : names);
    map.put("entries", entries);
    map.put("begin", seconds(item.begin()));
    map.put("due", seconds(item.due()));
    map.put("state", item.state().name());
    item.posture().ifPresent(how -> map.put("posture", words.say(how)));
    return map;
  }

  // How a reading is entered: counted, on a scale, by a word or as a number.
  private Map<String, Object> entry(String name) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", name);
    map.put("label", words.name(name));
    Optional<MeasureLine> line = protocol.schedule().lineOf(name);
    Signal signal = protocol.instruments().signals().get(name);
    if (signal == null) {
      map.put("by", "number");
    } else if (signal.type() instanceof Type.Choice choice) {
      map.put("by", "word");
      map.put("words", choice.options());
      map.put("shown", choice.options().stream().map(words::name).toList());
    } else if (line.flatMap(MeasureLine::scale).isPresent()) {
      Scale scale =
          Objects.requireNonNull(
              protocol.instruments().scales().get(line.flatMap(MeasureLine::scale).get()));
      List<String> figures = new ArrayList<>();
      for (double at = scale.low(); at <= scale.high() + 1e-9; at += scale.step()) {
        figures.add(org.gradus.unit.Quantity.plain(at));
      }
      map.put("by", "scale");
      map.put("words", figures);
    } else {
      map.put("by", name.equals("heart_rate") ? "pulse" : "number");
      map.put("unit", signal.unit().symbol());
      long over = line.map(MeasureLine::over).orElse(Duration.ZERO).toSeconds();
      map.put("over", over > 0 ? over : USUAL_COUNT);
    }
    return map;
  }

  // In the order of the file, whichever has to be answered.
  private List<Map<String, Object>> asks(Agenda agenda) {
    List<String> order = List.copyOf(protocol.instruments().questions().keySet());
    return agenda.asks().stream()
        .sorted(Comparator.comparingInt(ask -> order.indexOf(ask.name())))
        .map(this::ask)
        .toList();
  }

  // Facts about the person have no question in a file: they are called by their names.
  private String prompt(Agenda.Ask ask) {
    return ask.prompt().equals(new Name(ask.name()).toString())
        ? words.name(ask.name())
        : words.text(ask.prompt());
  }

  private Map<String, Object> ask(Agenda.Ask ask) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", ask.name());
    map.put("prompt", prompt(ask));
    map.put("needed", ask.needed());
    Question question = protocol.instruments().questions().get(ask.name());
    if (question == null || question.type().equals(Type.CONDITION)) {
      map.put("words", List.of("yes", "no"));
      map.put("shown", List.of(words.say("yes"), words.say("no")));
    } else if (question.type() instanceof Type.Choice choice) {
      map.put("words", choice.options());
      map.put("shown", choice.options().stream().map(words::name).toList());
    } else {
      map.put("unit", Typed.unit(question).symbol());
      map.put("allowed", question.choice().map(words::say).orElse(""));
    }
    return map;
  }

  // The grade of each sign that was reported and not withdrawn since.
  private Map<String, Integer> signsThere() {
    Map<String, Integer> there = new LinkedHashMap<>();
    for (Event event : counted) {
      if (event instanceof Event.Reported reported) {
        there.put(reported.sign(), reported.grade().orElse(1));
      } else if (event instanceof Event.Withdrawn withdrawn) {
        there.remove(withdrawn.sign());
      }
    }
    there.values().removeIf(grade -> grade == 0);
    return there;
  }

  private List<Map<String, Object>> signs() {
    Map<String, Integer> there = signsThere();
    List<Map<String, Object>> signs = new ArrayList<>();
    for (Sign sign : protocol.instruments().signs().values()) {
      Map<String, Object> map = new LinkedHashMap<>();
      map.put("name", sign.name());
      map.put("label", words.name(sign.name()));
      map.put("prompt", words.text(sign.prompt()));
      map.put("asked", sign.asked());
      sign.top().ifPresent(top -> map.put("top", top));
      int grade = there.getOrDefault(sign.name(), 0);
      map.put("grade", grade);
      signs.add(map);
    }
    return signs;
  }

  private Set<String> marginal() {
    Set<String> marginal = new HashSet<>();
    for (Retold told : retold) {
      if (told.before().phase() == Phase.STAGE
          && told.event() instanceof Event.Followed
          && !told.before().firmness().isFirm()) {
        told.before().stage().ifPresent(marginal::add);
      }
    }
    return marginal;
  }

  private List<Map<String, Object>> stages() {
    Set<String> marginal = marginal();
    List<Map<String, Object>> stages = new ArrayList<>();
    for (StageRow row : StageRow.of(outcome, Capacity.of(outcome))) {
      Map<String, Object> map = new LinkedHashMap<>();
      map.put("name", words.name(row.stage().id()));
      map.put("from", seconds(row.stage().start()));
      map.put("to", seconds(row.stage().start().plus(row.stage().lasted())));
      map.put("load", words.say(Loading.message(row.stage().loads())));
      map.put("used", row.used());
      map.put("marginal", marginal.contains(row.stage().id()));
      map.put("completed", row.stage().completed());
      List<Map<String, Object>> readings = new ArrayList<>();
      for (Reading reading : row.readings()) {
        readings.add(
            Map.of("name", words.name(reading.subject()), "value", words.say(reading.message())));
      }
      map.put("readings", readings);
      stages.add(map);
    }
    return stages;
  }

  private List<List<Double>> rates() {
    List<List<Double>> rates = new ArrayList<>();
    for (Event event : counted) {
      if (event instanceof Event.Read read) {
        value(read, "heart_rate").ifPresent(bpm -> rates.add(List.of(seconds(read.taken()), bpm)));
      }
    }
    return rates;
  }

  private List<List<Double>> pressures() {
    List<List<Double>> pressures = new ArrayList<>();
    for (Event event : counted) {
      if (event instanceof Event.Read read) {
        Optional<Double> systolic = value(read, "systolic");
        Optional<Double> diastolic = value(read, "diastolic");
        if (systolic.isPresent() && diastolic.isPresent()) {
          pressures.add(List.of(seconds(read.taken()), systolic.get(), diastolic.get()));
        }
      }
    }
    return pressures;
  }

  private static Optional<Double> value(Event.Read read, String signal) {
    return read.readings().stream()
        .filter(reading -> reading.subject().equals(signal))
        .filter(Reading.Measured.class::isInstance)
        .map(reading -> ((Reading.Measured) reading).value().base())
        .findFirst();
  }

  private List<Map<String, Object>> events() {
    List<Map<String, Object>> told = new ArrayList<>();
    for (int i = 0; i < events.size(); i++) {
      told.add(ToldEvents.of(i + 1, events.get(i), counted.get(i), words));
    }
    return told;
  }

  private Map<String, Object> result() {
    Capacity capacity = Capacity.of(session.outcome());
    Map<String, Object> map = new LinkedHashMap<>();
    outcome.ending().ifPresent(how -> map.put("ending", words.say(how.message())));
    Optional<Estimate.Available> best = capacity.headline();
    best.ifPresent(
        found -> {
          map.put("capacity", found.vo2max().rounded(1).toString());
          found.interval().ifPresent(around -> map.put("interval", words.say(around.message())));
          map.put("cautions", found.warnings().stream().map(words::say).toList());
          List<String> shares = new ArrayList<>();
          found
              .interval()
              .ifPresent(
                  around ->
                      around
                          .shares()
                          .forEach(
                              share ->
                                  shares.add(
                                      words.say("{0}: {1} %", share.label(), share.percent()))));
          map.put("shares", shares);
        });
    if (best.isEmpty()) {
      map.put(
          "reasons",
          capacity.estimates().stream()
              .flatMap(estimate -> estimate.lacks().stream())
              .map(words::say)
              .distinct()
              .toList());
    }
    map.put(
        "findings", capacity.findings().stream().map(found -> words.say(found.message())).toList());
    map.put("needsClearance", outcome.needsClearance());
    map.put("cleared", outcome.clearedAfterStop());
    return map;
  }
}
