package org.gradus.diagnostic;

/**
 * Makes text from outside safe to show: titles, reasons, names and whatever else a file, a record
 * or a host brings. A terminal obeys escape sequences, and some characters turn the direction of
 * what follows or take no room. Each output passes its text through here at its door; each such
 * character appears as U+FFFD.
 */
public final class Printable {

  private static final int REPLACEMENT = 0xFFFD;
  private static final int ZERO_WIDTH_NON_JOINER = 0x200C;
  private static final int ZERO_WIDTH_JOINER = 0x200D;

  private Printable() {}

  /**
   * Returns the text with every character that does not print replaced; line feeds and tabs stay.
   *
   * <pre>{@code
   * Printable.text("a\u001B[31mb\nc");   // "a\uFFFD[31mb\nc"
   * }</pre>
   */
  public static String text(String text) {
    if (text.codePoints().allMatch(point -> point == '\n' || point == '\t' || isPlain(point))) {
      return text;
    }
    StringBuilder shown = new StringBuilder(text.length());
    text.codePoints()
        .map(point -> point == '\n' || point == '\t' || isPlain(point) ? point : REPLACEMENT)
        .forEach(shown::appendCodePoint);
    return shown.toString();
  }

  /**
   * Whether a character only prints: it is no control character (line breaks and tabs included), no
   * format character, no half of a character and no code point without a character. The two joiners
   * are format characters that some scripts are written with; they neither turn nor erase text.
   */
  public static boolean isPlain(int codePoint) {
    return switch (Character.getType(codePoint)) {
      case Character.FORMAT -> codePoint == ZERO_WIDTH_NON_JOINER || codePoint == ZERO_WIDTH_JOINER;
      case Character.CONTROL,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR,
          Character.SURROGATE,
          Character.UNASSIGNED ->
          false;
      default -> true;
    };
  }
}
