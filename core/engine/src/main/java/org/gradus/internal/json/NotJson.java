package org.gradus.internal.json;

/** A text is no JSON, or more than its reader takes; the message says where and why. */
public final class NotJson extends RuntimeException {

  private static final long serialVersionUID = 1L;

  NotJson(String message) {
    super(message);
  }
}
