package org.gradus.capacity;

import java.util.List;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.Wiring;
import org.gradus.words.Message;

/**
 * Something an estimate rests on that could have come out otherwise. All that moves with it moves
 * together: the heart rates of all stages on a day on which the heart is faster.
 *
 * @param of whether the readings or the person may be otherwise
 * @param readings the slots that move
 * @param terms the definitions that move
 * @param anchors the lines whose anchors move
 * @param parts what the doubt is made of
 */
record Doubt(
    Of of, List<Move> readings, List<Move> terms, List<Anchored> anchors, List<Part> parts) {

  /** What a doubt is about. */
  enum Of {
    /** Readings of this person on another day, or by another observer. */
    READINGS,
    /** How much a person differs from the equation that was found in others. */
    PEOPLE
  }

  /**
   * A value that moves.
   *
   * @param frame the number of the frame it stands in
   * @param place its slot, or the place of its term
   * @param value what it is
   * @param sd its standard deviation
   */
  record Move(int frame, int place, double value, double sd) {
    double at(double times) {
      return value + times * sd;
    }
  }

  /**
   * A line whose anchor moves.
   *
   * @param line the line
   * @param sd the standard deviation of the anchor's x
   */
  record Anchored(Wiring.Line line, double sd) {}

  /**
   * A reason for the doubt.
   *
   * @param label what it is
   * @param weight its share of the variance of what moves
   * @param source where its figure comes from
   */
  record Part(Message label, double weight, Citation source) {}

  Doubt {
    readings = List.copyOf(readings);
    terms = List.copyOf(terms);
    anchors = List.copyOf(anchors);
    parts = List.copyOf(parts);
  }

  /** The standard deviation of the anchor of a line; zero where it does not move. */
  double anchorSd(Wiring.Line line) {
    return anchors.stream()
        .filter(anchored -> anchored.line().equals(line))
        .mapToDouble(Anchored::sd)
        .findFirst()
        .orElse(0);
  }

  /** Whether anything in a frame moves. */
  boolean moves(int frame) {
    return isIn(readings, frame) || isIn(terms, frame);
  }

  private static boolean isIn(List<Move> moves, int frame) {
    for (Move move : moves) {
      if (move.frame() == frame) {
        return true;
      }
    }
    return false;
  }
}
