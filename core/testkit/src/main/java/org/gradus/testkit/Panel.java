package org.gradus.testkit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.gradus.protocol.AuthorNotes.Usual;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Signal;
import org.gradus.protocol.Stage;
import org.gradus.rule.syntax.Expression.Literal;
import org.gradus.session.Reading;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** What can be read in tests by a protocol: within what, how finely, and which figures matter. */
final class Panel {

  private final Protocol protocol;
  private final Map<Kind, List<Double>> figures;

  Panel(Protocol protocol) {
    this.protocol = protocol;
    this.figures = figures(protocol);
  }

  /** Values in base units. */
  record Span(double low, double high) {
    double at(double share) {
      return low + share * (high - low);
    }
  }

  Protocol protocol() {
    return protocol;
  }

  Signal signal(String name) {
    return protocol.instruments().signal(name);
  }

  /** The lines of stages and of recovery. */
  List<MeasureLine> lines() {
    List<MeasureLine> lines = new ArrayList<>(protocol.schedule().lines());
    protocol.recovery().map(Recovery::schedule).ifPresent(more -> lines.addAll(more.lines()));
    return lines;
  }

  /** What is read together, also what no line reads. */
  List<List<String>> groups() {
    List<List<String>> groups =
        new ArrayList<>(lines().stream().map(MeasureLine::signals).toList());
    protocol.baselines().forEach(line -> groups.add(line.signals()));
    for (String signal : protocol.instruments().signals().keySet()) {
      if (groups.stream().noneMatch(group -> group.contains(signal))) {
        groups.add(List.of(signal));
      }
    }
    return groups.stream().distinct().toList();
  }

  /** The scale on which a signal is told, if it is told on one. */
  Optional<Scale> scale(String signal) {
    return protocol
        .schedule()
        .lineOf(signal)
        .flatMap(MeasureLine::scale)
        .map(protocol.instruments().scales()::get);
  }

  /** The unit in which the files speak of it. */
  Unit unit(Signal signal) {
    return signal.range().map(range -> range.low().unit()).orElseGet(() -> kind(signal).base());
  }

  static Kind kind(Signal signal) {
    return signal.type() instanceof Type.Measure measure ? measure.kind() : Kind.NUMBER;
  }

  /** What is possible, both ends included; without a word in the files, what is usual. */
  Span possible(Signal signal) {
    Optional<Span> scale = scale(signal.name()).map(on -> new Span(on.low(), on.high()));
    return scale
        .or(() -> signal.range().map(Panel::span))
        .orElseGet(() -> new Span(0, Quantity.of(100, kind(signal).base()).base()));
  }

  /** Within what most readings lie: what the files call usual, else the middle of the possible. */
  Span usual(Signal signal) {
    Span possible = possible(signal);
    Usual usual = protocol.notes().usual().get(signal.name());
    return usual == null
        ? new Span(possible.at(0.2), possible.at(0.85))
        : new Span(
            Math.max(possible.low(), usual.range().low().base()),
            Math.min(possible.high(), usual.range().high().base()));
  }

  private static Span span(QuantityRange range) {
    return new Span(range.low().base(), range.high().base());
  }

  /** The step to which it can be read, in the base unit. */
  double step(Signal signal) {
    Optional<Double> own = signal.step().map(Quantity::base);
    return scale(signal.name())
        .map(Scale::step)
        .or(() -> own)
        .orElseGet(() -> Quantity.of(isFine(kind(signal)) ? 0.1 : 1, unit(signal)).base());
  }

  private static boolean isFine(Kind kind) {
    return switch (kind) {
      case UPTAKE, ABSOLUTE_UPTAKE, SPEED, LENGTH, FORCE -> true;
      default -> false;
    };
  }

  /** A reading of a value in base units. */
  Reading.Measured reading(Signal signal, double value) {
    Quantity shown = Quantity.ofBase(value, unit(signal)).rounded(3);
    Optional<String> scale = scale(signal.name()).map(Scale::name);
    return new Reading.Measured(signal.name(), shown, Optional.empty(), scale);
  }

  /** The figures of rules and settings that a signal may be compared with. */
  List<Double> figures(Signal signal) {
    return figures.getOrDefault(kind(signal), List.of());
  }

  /** The times that rules speak of, in seconds. */
  List<Double> times() {
    return figures.getOrDefault(Kind.TIME, List.of());
  }

  private static Map<Kind, List<Double>> figures(Protocol protocol) {
    Map<Kind, Set<Double>> all = new LinkedHashMap<>();
    rules(protocol)
        .flatMap(rule -> rule.rule().condition().stream())
        .map(when -> when.anatomy())
        .flatMap(
            parts ->
                Stream.concat(
                    parts.figures().stream(),
                    parts.definitions().values().stream().flatMap(List::stream)))
        .map(Literal::quantity)
        .forEach(figure -> add(figure, all));
    for (Setting setting : protocol.settings().values()) {
      if (setting.value() instanceof Setting.Figure figure) {
        add(figure.quantity(), all);
      }
    }
    Map<Kind, List<Double>> figures = new LinkedHashMap<>();
    all.forEach((kind, some) -> figures.put(kind, List.copyOf(some)));
    return figures;
  }

  private static void add(Quantity figure, Map<Kind, Set<Double>> all) {
    all.computeIfAbsent(figure.kind(), kind -> new TreeSet<>()).add(figure.base());
  }

  private static Stream<ProtocolRule> rules(Protocol protocol) {
    var book = protocol.rules();
    Stream<List<ProtocolRule>> common =
        Stream.of(book.before(), book.anyTime(), book.stageEnd(), book.recovery());
    Stream<List<ProtocolRule>> own =
        protocol.stages().stream().map(Stage::ownRules).flatMap(Optional::stream);
    return Stream.concat(common, own).flatMap(List::stream);
  }
}
