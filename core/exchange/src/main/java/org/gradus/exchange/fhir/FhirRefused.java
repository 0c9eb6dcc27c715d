package org.gradus.exchange.fhir;

import java.util.List;
import org.gradus.diagnostic.InputRefused;

/**
 * A text cannot be read as FHIR observations. It names every problem; nothing was taken from it.
 */
public final class FhirRefused extends InputRefused {

  private static final long serialVersionUID = 1L;

  private final transient List<String> problems;

  FhirRefused(List<String> problems) {
    super("the FHIR text", String.join("\n", problems), "mend what is named, or leave it out");
    this.problems = List.copyOf(problems);
  }

  /** Each problem with its place, such as {@code "entry[2].resource.valueQuantity.code: ..."}. */
  public List<String> problems() {
    return problems;
  }
}
