package org.gradus.exchange.table;

import java.util.List;
import java.util.stream.Collectors;

/** A table cannot be read. It names every problem that was found; nothing was imported. */
public final class TableRefused extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient List<TableProblem> problems;

  TableRefused(List<TableProblem> problems) {
    super(
        "the table has "
            + problems.size()
            + (problems.size() == 1 ? " problem" : " problems")
            + ":\n"
            + problems.stream().map(TableProblem::toString).collect(Collectors.joining("\n")));
    this.problems = List.copyOf(problems);
  }

  /** Every problem, in the order in which it was found; at most 100. */
  public List<TableProblem> problems() {
    return problems;
  }
}
