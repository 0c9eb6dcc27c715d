package org.gradus.rule.syntax;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.Token;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;

/**
 * The tokens of one text, with their places in the file. The limits are counted here, before a
 * parser or a tree walk could run out of stack.
 */
final class Tokens {

  private static final int MOST_TOKENS = 1000;
  private static final int MOST_OPEN_BRACKETS = 24;
  private static final int MOST_PREFIX_WORDS = 100;

  private final Span text;
  private final String characters;
  private final boolean plain;
  private final CommonTokenStream stream;

  private Tokens(Span text) {
    this.text = text;
    this.characters = text.text();
    this.plain = characters.codePointCount(0, characters.length()) == characters.length();
    AntlrVersion.check();
    GradusLexer lexer = new GradusLexer(CharStreams.fromString(characters));
    lexer.removeErrorListeners();
    this.stream = new CommonTokenStream(lexer);
    stream.fill();
  }

  static Tokens of(Span text) {
    return new Tokens(text);
  }

  CommonTokenStream stream() {
    return stream;
  }

  /** The place of a token; the end of the text is the place after its last token. */
  Span span(Token token) {
    if (token.getType() == Token.EOF) {
      int end = lastOffset();
      return new Span(text.file(), end, end);
    }
    return new Span(text.file(), offset(token.getStartIndex()), offset(token.getStopIndex() + 1));
  }

  Span span(Token first, Token last) {
    return span(first).to(span(last));
  }

  private int lastOffset() {
    List<Token> all = stream.getTokens();
    return all.size() < 2 ? text.start() : offset(all.get(all.size() - 2).getStopIndex() + 1);
  }

  // The lexer counts code points, the file counts chars.
  private int offset(int codePoints) {
    return text.start() + (plain ? codePoints : characters.offsetByCodePoints(0, codePoints));
  }

  boolean areWithinLimits(Problems problems) {
    int open = 0;
    int deepest = 0;
    int prefixes = 0;
    for (Token token : stream.getTokens()) {
      switch (token.getType()) {
        case GradusLexer.LPAREN -> deepest = Math.max(deepest, ++open);
        case GradusLexer.RPAREN -> open--;
        case GradusLexer.NOT,
            GradusLexer.MINUS,
            GradusLexer.IF,
            GradusLexer.OF,
            GradusLexer.CARET ->
            prefixes++;
        default -> {
          // no other token opens a level
        }
      }
    }
    int words = stream.size() - 1; // the end of the text is counted in the stream
    return within(words, MOST_TOKENS, "words", problems)
        && within(deepest, MOST_OPEN_BRACKETS, "brackets inside each other", problems)
        && within(prefixes, MOST_PREFIX_WORDS, "of the words not, if, of and signs", problems);
  }

  private boolean within(int count, int most, String what, Problems problems) {
    if (count > most) {
      String help = "name parts of it under define";
      problems.add(text, Code.G105, count + " " + what, Integer.toString(most), help);
    }
    return count <= most;
  }

  /** The first bracket that has no partner. */
  Optional<Token> loneBracket() {
    Deque<Token> open = new ArrayDeque<>();
    for (Token token : stream.getTokens()) {
      if (token.getType() == GradusLexer.LPAREN) {
        open.push(token);
      } else if (token.getType() == GradusLexer.RPAREN && open.poll() == null) {
        return Optional.of(token);
      }
    }
    return Optional.ofNullable(open.peekLast());
  }
}
