package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Wiring;
import org.gradus.rule.plan.Frame;

/**
 * What an estimate is worked out from: what was known at the end of each selected stage, and what
 * its formula sees. Frames are numbered: the stages in order, then that of the formula, which is
 * made like the last stage.
 */
final class Situation {

  private final Protocol protocol;
  private final EstimateLine line;
  private final List<Frame> stages;
  private final Frame own;
  // The lines that have to be drawn anew where something is moved.
  private final List<Wiring.Line> lines;

  private Situation(
      Protocol protocol,
      EstimateLine line,
      List<Frame> stages,
      Frame own,
      List<Wiring.Line> lines) {
    this.lines = lines;
    this.protocol = protocol;
    this.line = line;
    this.stages = stages;
    this.own = own;
  }

  /** The situation at the end of some stages. */
  static Situation of(Protocol protocol, EstimateLine line, List<Frame> stages) {
    return of(protocol, line, stages, stages.get(stages.size() - 1).copy());
  }

  /** The situation at one moment, for an estimate from no stage. */
  static Situation of(Protocol protocol, EstimateLine line, Frame moment) {
    return of(protocol, line, List.of(), moment);
  }

  private static Situation of(Protocol protocol, EstimateLine line, List<Frame> stages, Frame own) {
    StageLine.fill(own, protocol, stages, line.leastSpan());
    return new Situation(
        protocol, line, stages, own, protocol.wiring().linesBehind(line.formula()));
  }

  List<Frame> stages() {
    return stages;
  }

  /** What the formula sees. */
  Frame own() {
    return own;
  }

  /** The numbers of the frames that show the end of a stage. */
  List<Integer> framesOf(int stage) {
    return stage == stages.size() - 1 ? List.of(stage, stages.size()) : List.of(stage);
  }

  /** A frame by its number. */
  Frame frame(int number) {
    return number == stages.size() ? own : stages.get(number);
  }

  /** How many frames there are. */
  int frames() {
    return stages.size() + 1;
  }

  /** What the formula comes to, in the base unit of its kind; NaN when it is not known. */
  double value() {
    return line.formula().value(own);
  }

  /**
   * What it comes to with something moved up and down.
   *
   * @param up by a standard deviation up
   * @param down by a standard deviation down
   */
  record Moved(double up, double down) {}

  /**
   * What it comes to with something moved. The stages stay the same ones, also when with such
   * readings others would have been selected.
   */
  Moved moved(Doubt doubt) {
    List<Frame> copies = new ArrayList<>(stages.size());
    for (int stage = 0; stage < stages.size(); stage++) {
      copies.add(doubt.moves(stage) ? stages.get(stage).copy() : stages.get(stage));
    }
    Situation scratch = new Situation(protocol, line, copies, own.copy(), lines);
    return new Moved(scratch.shifted(doubt, 1), scratch.shifted(doubt, -1));
  }

  // Changes this situation, which is a scratch one.
  private double shifted(Doubt doubt, double times) {
    for (Doubt.Move move : doubt.readings()) {
      Frame frame = frame(move.frame());
      // The step of the reading stays, since lines weigh readings by it.
      frame.set(move.place(), move.at(times), frame.halfWidth(move.place()));
    }
    for (Doubt.Move move : doubt.terms()) {
      frame(move.frame()).suppose(move.place(), move.at(times));
    }
    StageLine.fillMoved(own, protocol, lines, stages, line -> times * doubt.anchorSd(line));
    return value();
  }
}
