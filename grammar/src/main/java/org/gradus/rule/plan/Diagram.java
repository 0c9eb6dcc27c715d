package org.gradus.rule.plan;

import java.util.List;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Span;
import org.gradus.rule.check.Checked;

/**
 * A text with the value of every part under it, and the same for each definition it uses:
 *
 * <pre>
 * finish when steady and heart_rate >= finish_from
 *             ------     ----------    -----------
 *             yes        138 bpm       135 bpm
 *                        12 s old
 *                        -------------------------
 *                        yes
 *             ------------------------------------
 *             yes
 * </pre>
 *
 * @param figures the text itself first, then the definitions in the order of their use
 */
public record Diagram(List<Figure> figures) {

  /**
   * One text and what stands under it.
   *
   * @param name the definition; empty for the text that was asked about
   * @param lines the text in one line, then the lines under it
   */
  public record Figure(String name, List<String> lines) {
    public Figure {
      lines = List.copyOf(lines);
    }

    @Override
    public String toString() {
      String text = String.join("\n", lines);
      return name.isEmpty() ? text : name + " is\n" + text.indent(2).stripTrailing();
    }
  }

  public Diagram {
    figures = List.copyOf(figures);
  }

  /**
   * Draws a checked tree.
   *
   * @param frame gives the values
   * @param whole the text to show, of which the tree is a part
   * @param now in seconds since the start; the age of a reading is counted up to it
   */
  public static Diagram of(Checked checked, Frame frame, Span whole, double now) {
    return new Drawer(frame, now).draw(whole, checked);
  }

  /** All figures, one below the other. */
  @Override
  public String toString() {
    return figures.stream().map(Figure::toString).collect(Collectors.joining("\n\n"));
  }
}
