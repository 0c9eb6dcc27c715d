package org.gradus.examples.benchmarks;

/** What is measured side by side. */
public enum Subject {
  /** Plain Java. */
  HAND_WRITTEN("hand-written Java", false),
  /** The rules as shipped. */
  GRADUS("Gradus", false),
  /** Compiled Spring expressions. */
  SPRING("Spring Expression, compiled", false),
  /** Compiled MVEL expressions. */
  MVEL("MVEL", false),
  /** Parsed JEXL expressions. */
  JEXL("Commons JEXL", false),
  /** Planned CEL programs. */
  CEL("CEL-Java", false),
  /** Plain Java, some readings missing. */
  HAND_WRITTEN_GAPS("hand-written Java, with gaps", true),
  /** The rules as shipped, some readings missing. */
  GRADUS_GAPS("Gradus, with gaps", true);

  private final String label;
  private final boolean gaps;

  Subject(String label, boolean gaps) {
    this.label = label;
    this.gaps = gaps;
  }

  String label() {
    return label;
  }

  boolean hasGaps() {
    return gaps;
  }

  Evaluator over(int moments) {
    AskedMoment[] several = AskedMoment.several(moments, gaps);
    return switch (this) {
      case HAND_WRITTEN, HAND_WRITTEN_GAPS -> new HandWritten(several);
      case GRADUS, GRADUS_GAPS -> new GradusRules(several);
      case SPRING -> new SpringRules(several);
      case MVEL -> new MvelRules(several);
      case JEXL -> new JexlRules(several);
      case CEL -> new CelRules(several);
    };
  }

  /**
   * Refuses to measure what does not agree.
   *
   * @throws IllegalStateException when two subjects give different answers to the same rule
   */
  static void refuseDifferent(int moments) {
    for (Subject subject : values()) {
      Subject expected = subject.gaps ? HAND_WRITTEN_GAPS : HAND_WRITTEN;
      Answers.refuseDifferent(moments, expected.over(moments), subject.over(moments));
    }
  }
}
