package org.gradus.testkit;

/** A law that does not hold, with the script that shows it. */
public final class LawBroken extends AssertionError {

  private static final long serialVersionUID = 1;

  private final String law;

  LawBroken(Law law, String found, String story, Throwable cause) {
    super(
        "the law \""
            + law.name()
            + "\" is broken\n"
            + Texts.indent(law.says())
            + "\nfound:\n"
            + Texts.indent(found)
            + "\nin:\n"
            + Texts.indent(story),
        cause);
    this.law = law.name();
  }

  /** The name of the law. */
  public String law() {
    return law;
  }
}
