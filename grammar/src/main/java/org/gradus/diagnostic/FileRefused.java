package org.gradus.diagnostic;

import java.util.List;
import java.util.stream.Collectors;

/**
 * Files could not be loaded. Carries every problem found in one run; the message shows them all.
 */
public final class FileRefused extends GradusException {

  private static final long serialVersionUID = 1L;

  private final transient List<Diagnostic> diagnostics;

  /** Refuses files for these problems, of which there is at least one. */
  public FileRefused(List<Diagnostic> diagnostics) {
    super(
        diagnostics.get(0).code(),
        diagnostics.stream().map(Diagnostic::toString).collect(Collectors.joining("\n")));
    this.diagnostics = List.copyOf(diagnostics);
  }

  /** The problems, ordered by file and place. */
  public List<Diagnostic> diagnostics() {
    return diagnostics;
  }

  /** The help of each problem stands with it. */
  @Override
  public String remedy() {
    return diagnostics.stream().map(Diagnostic::help).collect(Collectors.joining("\n"));
  }
}
