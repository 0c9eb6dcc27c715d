package org.gradus.capacity;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.capacity.Doubt.Move;
import org.gradus.capacity.Doubt.Of;
import org.gradus.capacity.Doubt.Part;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.ResultMessage;
import org.gradus.knowledge.Spread;
import org.gradus.knowledge.Spread.Per;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Wiring;
import org.gradus.rule.Formula;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;
import org.gradus.words.Name;

/** Finds everything an estimate rests on that could have come out otherwise. */
final class Doubts {

  private final Protocol protocol;
  private final Costs costs;
  private final ReadingErrors errors;
  private final EstimateLine line;
  private final Situation situation;
  private final List<Doubt> doubts = new ArrayList<>();
  private final Map<Spread, List<Move>> alike = new LinkedHashMap<>();

  private Doubts(Protocol protocol, EstimateLine line, Situation situation) {
    this.protocol = protocol;
    this.costs = new Costs(protocol);
    this.errors = new ReadingErrors(protocol);
    this.line = line;
    this.situation = situation;
  }

  static List<Doubt> of(Protocol protocol, EstimateLine line, Situation situation) {
    Doubts search = new Doubts(protocol, line, situation);
    search.readings();
    search.uptake();
    search.anchors();
    // Where the formula does not ask for it nothing moves with it.
    protocol
        .assessment()
        .maxHeartRate()
        .flatMap(rate -> rate.chosen(situation.own()))
        .ifPresent(search::maximum);
    return search.doubts;
  }

  private void readings() {
    int stages = situation.stages().size();
    BitSet slots = new BitSet();
    axes().forEach(axis -> addMeasured(axis, slots));
    for (int stage = 0; stage < stages - 1; stage++) {
      readings(situation.framesOf(stage), slots);
    }
    // What the formula asks for by itself it sees as it was at the end of the last stage.
    addMeasured(line.formula(), slots);
    readings(stages == 0 ? List.of(0) : situation.framesOf(stages - 1), slots);
    alike.forEach((spread, moves) -> add(Of.READINGS, moves, List.of(), List.of(part(spread, 1))));
  }

  private void readings(List<Integer> frames, BitSet slots) {
    for (int slot = slots.nextSetBit(0); slot >= 0; slot = slots.nextSetBit(slot + 1)) {
      reading(frames, slot);
    }
  }

  private List<Formula> axes() {
    List<Formula> axes = new ArrayList<>();
    for (Wiring.Line drawn : protocol.wiring().lines(line.formula())) {
      axes.addAll(List.of(drawn.y(), drawn.x()));
    }
    return axes;
  }

  // The standard deviation of an anchor holds all that may be off with it, its reading included.
  private void anchors() {
    for (Wiring.Line drawn : protocol.wiring().lines(line.formula())) {
      drawn
          .anchor()
          .ifPresent(
              anchor -> {
                double sd = anchor.sd().value(situation.own());
                Message name = Message.of(ResultMessage.ANCHOR_OF, new Name(anchor.xName()));
                Part part = new Part(name, 1, protocol.wiring().citation(anchor.sdName()));
                if (sd > 0) {
                  doubts.add(
                      new Doubt(
                          Of.PEOPLE,
                          List.of(),
                          List.of(),
                          List.of(new Doubt.Anchored(drawn, sd)),
                          List.of(part)));
                }
              });
    }
  }

  private void addMeasured(Formula formula, BitSet slots) {
    for (int slot : formula.slots()) {
      if (protocol.wiring().isMeasured(slot)) {
        slots.set(slot);
      }
    }
  }

  private void reading(List<Integer> frames, int slot) {
    Frame frame = situation.frame(frames.get(0));
    if (!frame.isKnown(slot)) {
      return;
    }
    double value = frame.value(slot);
    for (Spread spread : protocol.assessment().spreads()) {
      if (spread.of() == errors.kind(slot) && spread.per() == Per.TEST) {
        alike
            .computeIfAbsent(spread, s -> new ArrayList<>())
            .addAll(moves(frames, slot, value, spread.at(value)));
      }
    }
    double variance = errors.variance(frame, slot);
    if (variance > 0) {
      List<Part> parts = new ArrayList<>();
      String words = errors.kind(slot).words();
      double step = ReadingErrors.square(errors.step(frame, slot));
      parts.add(
          new Part(
              Message.of(ResultMessage.STEP_OF_READING, new FileText(words)),
              step / variance,
              Citation.NONE));
      for (Spread spread : errors.each(slot)) {
        parts.add(part(spread, ReadingErrors.square(spread.at(value)) / variance));
      }
      add(Of.READINGS, moves(frames, slot, value, Math.sqrt(variance)), List.of(), parts);
    }
  }

  private static List<Move> moves(List<Integer> frames, int slot, double value, double sd) {
    List<Move> moves = new ArrayList<>();
    for (int frame : frames) {
      moves.add(new Move(frame, slot, value, sd));
    }
    return moves;
  }

  private static Part part(Spread spread, double weight) {
    return new Part(Message.of(Joined.ALONE, new Name(spread.id())), weight, spread.source());
  }

  // A person who is thrifty at one load is thrifty at the others too: all stages move together.
  private void uptake() {
    Map<String, List<Move>> byEquation = new LinkedHashMap<>();
    Map<String, CostLine> equations = new LinkedHashMap<>();
    for (int number = 0; number < situation.frames(); number++) {
      Frame frame = situation.frame(number);
      Optional<CostLine> chosen = costs.of(frame);
      if (chosen.isPresent() && chosen.get().equation().spread().isPresent()) {
        String id = chosen.get().equation().id();
        equations.put(id, chosen.get());
        uptake(number, frame, chosen.get())
            .ifPresent(move -> byEquation.computeIfAbsent(id, k -> new ArrayList<>()).add(move));
      }
    }
    byEquation.forEach(
        (id, moves) -> {
          Citation source =
              Optional.ofNullable(equations.get(id)).orElseThrow().equation().source();
          add(Of.PEOPLE, List.of(), moves, List.of(new Part(ofCost(id), 1, source)));
        });
  }

  /** What the doubt about an oxygen cost is called. */
  static Message ofCost(String equation) {
    return Message.of(ResultMessage.OXYGEN_COST, new FileText(equation));
  }

  private Optional<Move> uptake(int number, Frame frame, CostLine cost) {
    Formula uptake = protocol.assessment().uptake().orElseThrow();
    double value = uptake.value(frame);
    double sd = sd(cost.equation().spread().orElseThrow(), value, uptake.kind());
    return Double.isFinite(value) && Double.isFinite(sd)
        ? Optional.of(new Move(number, uptake.place().orElseThrow(), value, sd))
        : Optional.empty();
  }

  // Not a number where one of the two is per kilogram and the other is not.
  private static double sd(Quantity spread, double value, Kind kind) {
    if (spread.kind() == Kind.NUMBER) {
      return spread.base() * value;
    }
    return spread.kind() == kind ? spread.base() : Double.NaN;
  }

  private void maximum(String equation) {
    Formula maximum = protocol.assessment().maxHeartRate().orElseThrow();
    Optional<Quantity> spread = protocol.wiring().spread(equation);
    if (spread.isEmpty()) {
      return;
    }
    double value = maximum.value(situation.own());
    int place = maximum.place().orElseThrow();
    List<Move> moves = new ArrayList<>();
    for (int number = 0; number < situation.frames(); number++) {
      moves.add(new Move(number, place, value, spread.get().base()));
    }
    Message name = Message.of(ResultMessage.MAXIMAL_HEART_RATE, new FileText(equation));
    add(
        Of.PEOPLE,
        List.of(),
        moves,
        List.of(new Part(name, 1, protocol.wiring().citation(equation))));
  }

  private void add(Of of, List<Move> readings, List<Move> terms, List<Part> parts) {
    doubts.add(new Doubt(of, readings, terms, List.of(), parts));
  }
}
