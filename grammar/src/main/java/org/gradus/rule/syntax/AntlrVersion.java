package org.gradus.rule.syntax;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.antlr.v4.runtime.RuntimeMetaData;

/**
 * Which versions of the ANTLR runtime can run the parser. Another library of the host may put an
 * older one on the class path, with which the parser's own classes fail to load.
 */
final class AntlrVersion {

  /**
   * The oldest minor version of 4 that was tried. Before 4.10 the runtime cannot read the parser.
   */
  static final int LEAST_MINOR = 11;

  private static final Pattern FOUR = Pattern.compile("4\\.(\\d{1,4})([.-].*)?");

  private AntlrVersion() {}

  /**
   * Checks the runtime on the class path. To be called before the parser's classes are touched.
   *
   * @throws IllegalStateException when it cannot run the parser
   */
  static void check() {
    check(RuntimeMetaData.getRuntimeVersion());
  }

  static void check(String found) {
    Matcher four = FOUR.matcher(found);
    if (!four.matches() || Integer.parseInt(four.group(1)) < LEAST_MINOR) {
      throw new IllegalStateException(
          "Gradus cannot read rules with version %s of org.antlr:antlr4-runtime; ".formatted(found)
              + "put version %s on the class path, or any of 4 from 4.%d on"
                  .formatted(RuntimeMetaData.VERSION, LEAST_MINOR));
    }
  }
}
