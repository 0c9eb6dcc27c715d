package org.gradus.rule.answer;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.stream.Collectors;

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
      requireNonNull(lines, "lines");
      requireNonNull(name, "name");
      lines = List.copyOf(lines);
    }

    @Override
    public String toString() {
      String text = String.join("\n", lines);
      return name.isEmpty() ? text : name + " is\n" + text.indent(2).stripTrailing();
    }
  }

  public Diagram {
    requireNonNull(figures, "figures");
    figures = List.copyOf(figures);
  }

  /** All figures, one below the other. */
  @Override
  public String toString() {
    return figures.stream().map(Figure::toString).collect(Collectors.joining("\n\n"));
  }
}
