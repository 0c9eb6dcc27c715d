package org.gradus.examples.console;

/** A request that is answered with an error: its status, and what the person at the page reads. */
final class Refusal extends RuntimeException {

  private static final long serialVersionUID = 1;

  private final int status;

  Refusal(int status, String message) {
    super(message);
    this.status = status;
  }

  int status() {
    return status;
  }
}
