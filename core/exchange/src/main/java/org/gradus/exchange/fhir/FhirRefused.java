package org.gradus.exchange.fhir;

import java.util.List;

/**
 * A text cannot be read as FHIR observations. It names every problem; nothing was taken from it.
 */
public final class FhirRefused extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient List<String> problems;

  FhirRefused(List<String> problems) {
    super(String.join("\n", problems));
    this.problems = List.copyOf(problems);
  }

  /** Each problem with its place, such as {@code "entry[2].resource.valueQuantity.code: ..."}. */
  public List<String> problems() {
    return problems;
  }
}
