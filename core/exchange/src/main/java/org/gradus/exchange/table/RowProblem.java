package org.gradus.exchange.table;

/** What is wrong with a cell; caught where rows are read and told with the others. */
final class RowProblem extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient TableProblem problem;

  RowProblem(Row row, Column column, String message) {
    super(message);
    this.problem = new TableProblem(row.line(), column.word(), message);
  }

  TableProblem problem() {
    return problem;
  }
}
