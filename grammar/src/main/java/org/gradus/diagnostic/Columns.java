package org.gradus.diagnostic;

/** How many columns of a terminal a text takes, so that carets stand under what they mean. */
final class Columns {

  private static final int TAB = 4;

  private Columns() {}

  /** The text with tabs as blanks and without characters that do not print. */
  static String visible(String text) {
    StringBuilder shown = new StringBuilder();
    text.codePoints()
        .forEach(
            c -> {
              if (c == '\t') {
                shown.append(" ".repeat(TAB));
              } else if (!Printable.isPlain(c)) {
                shown.append('\uFFFD');
              } else {
                shown.appendCodePoint(c);
              }
            });
    return shown.toString();
  }

  /** The columns taken by the first {@code chars} characters. */
  static int width(String text, int chars) {
    return text.substring(0, Math.max(0, Math.min(chars, text.length())))
        .codePoints()
        .map(Columns::width)
        .sum();
  }

  private static int width(int c) {
    if (c == '\t') {
      return TAB;
    }
    int type = Character.getType(c);
    boolean joiner = type == Character.FORMAT && Printable.isPlain(c);
    if (joiner || type == Character.NON_SPACING_MARK || type == Character.ENCLOSING_MARK) {
      return 0;
    }
    return isWide(c) ? 2 : 1;
  }

  // The East Asian wide and fullwidth blocks, and the pictographs (Unicode Standard Annex 11).
  private static boolean isWide(int c) {
    return c >= 0x1100
        && (c <= 0x115F
            || (c >= 0x2E80 && c <= 0xA4CF && c != 0x303F)
            || (c >= 0xAC00 && c <= 0xD7A3)
            || (c >= 0xF900 && c <= 0xFAFF)
            || (c >= 0xFE30 && c <= 0xFE6F)
            || (c >= 0xFF00 && c <= 0xFF60)
            || (c >= 0xFFE0 && c <= 0xFFE6)
            || (c >= 0x1F300 && c <= 0x1FAFF)
            || (c >= 0x20000 && c <= 0x3FFFD));
  }
}
