package org.gradus.examples.benchmarks;

/** Something that answers all rules that are looked at in a stage of the standard walk. */
interface Evaluator {

  /**
   * One pass: all rules of one moment, everything evaluated anew.
   *
   * @param moment which of the moments it was made for
   * @return two bits for each rule: see {@link Answers}
   */
  long pass(int moment);
}
