package org.gradus.library;

import java.util.Optional;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.scanner.StreamReader;

/**
 * Where in a file the events and errors of the YAML parser are, and what to do about the errors.
 */
final class YamlPlaces {

  private final SourceFile file;
  private final boolean plainText;

  YamlPlaces(SourceFile file) {
    this.file = file;
    this.plainText = file.text().codePointCount(0, file.text().length()) == file.text().length();
  }

  Span start() {
    return new Span(file, 0, 0);
  }

  Span of(Event event) {
    return of(event, event);
  }

  Span of(Event first, Event last) {
    int start = offset(first.getStartMark().map(Mark::getIndex).orElse(0));
    int end = offset(last.getEndMark().map(Mark::getIndex).orElse(0));
    return new Span(file, start, Math.max(start, end));
  }

  Span of(MarkedYamlEngineException error) {
    int offset = offset(error.getProblemMark().map(Mark::getIndex).orElse(0));
    return new Span(file, offset, offset);
  }

  // The parser counts code points, the file counts chars.
  private int offset(int codePoints) {
    String text = file.text();
    if (plainText) {
      return Math.min(codePoints, text.length());
    }
    return text.offsetByCodePoints(0, Math.min(codePoints, text.codePointCount(0, text.length())));
  }

  /** The first character that YAML does not allow, such as NUL or half of a character. */
  Optional<Span> firstUnprintable() {
    String text = file.text();
    int size;
    for (int i = 0; i < text.length(); i += size) {
      int character = text.codePointAt(i);
      size = Character.charCount(character);
      if (!StreamReader.isPrintable(character)) {
        return Optional.of(new Span(file, i, i + size));
      }
    }
    return Optional.empty();
  }

  /** Where the line ends on which a text begins: behind it a block scalar starts. */
  static int endOfLine(Span block) {
    String text = block.text();
    for (int i = 0; i < text.length(); i++) {
      if (text.charAt(i) == '\n' || text.charAt(i) == '\r') {
        return block.start() + i;
      }
    }
    return block.end();
  }

  /** What is wrong, in one line. */
  static String problem(YamlEngineException error) {
    String message =
        error instanceof MarkedYamlEngineException marked
            ? marked.getProblem()
            : String.valueOf(error.getMessage());
    return plain(message.lines().findFirst().orElse("").strip());
  }

  // The words of the reader of YAML are those of its grammar.
  private static String plain(String message) {
    if (message.startsWith("expected <block end>")) {
      return "this line does not belong to the lines above it";
    } else if (message.startsWith("expected ',' or '}'")) {
      return "a comma is missing here, or the closing }";
    } else if (message.startsWith("expected ',' or ']'")) {
      return "a comma is missing here, or the closing ]";
    }
    return message.startsWith("could not find expected ':'") ? "a key has no colon" : message;
  }

  /** What to do about it: these are the ways in which texts of rules trip YAML. */
  static String advice(MarkedYamlEngineException error, Span where) {
    String text = where.file().text();
    char found = where.start() < text.length() ? text.charAt(where.start()) : '\n';
    if (found == '\t') {
      return "indent with blanks, not with tabs";
    } else if (found == '@' || found == '`' || found == '%') {
      return "text that begins with " + found + " needs quotes";
    } else if (YamlPlaces.problem(error).startsWith("mapping values")) {
      return "text with \": \" in it needs quotes, or a line of its own after |-";
    } else if (isBlockMark(YamlPlaces.problem(error))) {
      return "text that begins with > or | needs quotes";
    }
    if (YamlPlaces.problem(error).startsWith("this line does not belong")) {
      return "begin it as far right as the keys or the list that it belongs to";
    } else if (YamlPlaces.problem(error).startsWith("a comma is missing")) {
      return "inside { } and [ ] a comma stands between the items";
    }
    return "look at the indentation, and put texts with \": \" or \" #\" in them in quotes";
  }

  private static boolean isBlockMark(String problem) {
    return problem.contains("chomping") || problem.startsWith("expected a comment or a line break");
  }
}
