package org.gradus.report;

/** Small help with sentences. */
final class Words {

  private Words() {}

  /** A text that ends like a sentence. */
  static String sentence(String text) {
    return text.endsWith(".") ? text : text + ".";
  }
}
