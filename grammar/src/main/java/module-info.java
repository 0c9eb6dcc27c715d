/**
 * The rule language: quantities with their units, diagnostics with their places, and rules. The
 * packages below {@code org.gradus.rule} are for the engine and its tools.
 */
// The modules that are named here are built after this one.
@SuppressWarnings("module")
module org.gradus.grammar {
  requires static transitive org.jspecify;
  requires org.antlr.antlr4.runtime;

  exports org.gradus.unit;
  exports org.gradus.words;
  exports org.gradus.diagnostic;
  exports org.gradus.rule;
  exports org.gradus.rule.answer;
  exports org.gradus.rule.syntax to
      org.gradus.core,
      org.gradus.authoring,
      org.gradus.testkit;
  exports org.gradus.rule.check to
      org.gradus.core,
      org.gradus.authoring,
      org.gradus.testkit;
  exports org.gradus.rule.bounds to
      org.gradus.core,
      org.gradus.authoring,
      org.gradus.testkit;
  exports org.gradus.rule.plan to
      org.gradus.core,
      org.gradus.authoring,
      org.gradus.testkit;
}
