package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;

/**
 * One thing wrong in a file: a stable code, its arguments, and the places it speaks of.
 *
 * <p>{@link #toString} renders it whole, with the line, carets and help:
 *
 * <pre>
 * error[G204] walk.yaml:41:22: a heart rate cannot be compared with a pressure
 *   41 |   - finish when heart_rate &gt;= 135 mmHg
 *      |                 ----------    ^^^^^^^^ pressure
 *      |                 heart rate
 *   help: give both sides in units of one kind, such as bpm
 * </pre>
 *
 * @param code what is wrong
 * @param labels the places, the one that is to be changed first; never empty
 * @param arguments what the code's message and help speak of
 */
public record Diagnostic(Code code, List<Label> labels, List<String> arguments) {

  /** By file name, then by place. */
  public static final Comparator<Diagnostic> BY_PLACE =
      Comparator.<Diagnostic, String>comparing(d -> d.where().file().name())
          .thenComparing(d -> d.where().start())
          .thenComparing(d -> d.code());

  /**
   * A place and what is said of it there.
   *
   * @param where the stretch to underline
   * @param note a few words, or empty
   */
  public record Label(Span where, String note) {
    public Label {
      requireNonNull(note, "note");
      requireNonNull(where, "where");
    }
  }

  public Diagnostic {
    requireNonNull(arguments, "arguments");
    requireNonNull(code, "code");
    requireNonNull(labels, "labels");
    labels = List.copyOf(labels);
    arguments = List.copyOf(arguments);
  }

  /** A diagnostic about one place. */
  public static Diagnostic at(Span where, Code code, String... arguments) {
    requireNonNull(arguments, "arguments");
    requireNonNull(code, "code");
    requireNonNull(where, "where");
    return new Diagnostic(code, List.of(new Label(where, "")), List.of(arguments));
  }

  /** The place that is to be changed. */
  public Span where() {
    return labels.get(0).where();
  }

  /** What is wrong, in one English sentence without a full stop. */
  public String message() {
    return code.message(arguments);
  }

  /** What to do about it, in English; empty when the message says it all. */
  public String help() {
    return code.help(arguments);
  }

  /** The diagnostic as it is shown to a person. */
  @Override
  public String toString() {
    return Renderer.render(this);
  }
}
