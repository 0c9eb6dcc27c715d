package org.gradus.exchange.table;

import java.util.List;
import java.util.stream.Collectors;
import org.gradus.diagnostic.InputRefused;

/** A table cannot be read. It names every problem that was found; nothing was imported. */
public final class TableRefused extends InputRefused {

  private static final long serialVersionUID = 1L;

  private final transient List<TableProblem> problems;

  TableRefused(List<TableProblem> problems) {
    super(
        "the table",
        "it has "
            + problems.size()
            + (problems.size() == 1 ? " problem" : " problems")
            + ":\n"
            + problems.stream().map(TableProblem::toString).collect(Collectors.joining("\n")),
        "mend these rows");
    this.problems = List.copyOf(problems);
  }

  /** Every problem, in the order in which it was found; at most 100. */
  public List<TableProblem> problems() {
    return problems;
  }
}
