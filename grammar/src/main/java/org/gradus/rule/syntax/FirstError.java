package org.gradus.rule.syntax;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.antlr.v4.runtime.DefaultErrorStrategy;
import org.antlr.v4.runtime.Parser;
import org.antlr.v4.runtime.RecognitionException;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.misc.IntervalSet;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;

/** Ends the parsing of a text at its first error and says it in words of the trade. */
final class FirstError extends DefaultErrorStrategy {

  /** Signals that the error has been noted. */
  static final class Found extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Found() {
      super("noted", null, false, false);
    }
  }

  private static final int THOUSANDS = 3;

  private final Tokens tokens;
  private final Problems problems;

  FirstError(Tokens tokens, Problems problems) {
    this.tokens = tokens;
    this.problems = problems;
  }

  @Override
  public void recover(Parser recognizer, RecognitionException e) {
    throw new Found();
  }

  @Override
  public Token recoverInline(Parser recognizer) {
    note(recognizer, recognizer.getCurrentToken());
    throw new Found();
  }

  @Override
  public void reportError(Parser recognizer, RecognitionException e) {
    note(recognizer, e.getOffendingToken());
  }

  @Override
  public void sync(Parser recognizer) {
    // never skip a token to go on: the first error ends the text
  }

  private void note(Parser parser, Token found) {
    IntervalSet expected = expected(parser);
    if (expected.contains(Token.EOF)
        && parser.getRuleContext() instanceof GradusParser.RuleTextContext
        && !hasWhen()) {
      expected.add(GradusLexer.WHEN); // the parser has passed by what might have stood here
    }
    Optional<Token> shouted = shouted(found);
    if (shouted.isPresent()) {
      Token word = shouted.get();
      String help = "write " + word.getText().toLowerCase(Locale.ROOT) + " in small letters";
      problems.add(tokens.span(word), Code.G101, wanted(expected), word.getText(), help);
    } else if (tokens.stream().size() == 1) {
      problems.add(tokens.span(found), Code.G107, wanted(expected), advice(expected, found));
    } else if (found.getType() == GradusLexer.OTHER) {
      problems.add(tokens.span(found), Code.G102, found.getText(), aboutCharacter(found.getText()));
    } else if (found.getType() == Token.EOF || found.getType() == GradusLexer.RPAREN) {
      noteEnd(expected, found);
    } else if (isRelation(found) && isAfterComparison(found) && !isWord(expected)) {
      problems.add(tokens.span(found), Code.G103);
    } else {
      noteUnexpected(expected, found);
    }
  }

  // A word of the language in capitals is taken for a name, and then the next word is found wrong.
  private Optional<Token> shouted(Token found) {
    return Stream.of(Optional.of(found), before(found))
        .flatMap(Optional::stream)
        .filter(word -> word.getType() == GradusLexer.WORD && isShouted(word.getText()))
        .findFirst();
  }

  private static boolean isShouted(String word) {
    String small = "'" + word.toLowerCase(Locale.ROOT) + "'";
    return !word.equals(word.toLowerCase(Locale.ROOT))
        && IntStream.rangeClosed(1, GradusLexer.VOCABULARY.getMaxTokenType())
            .mapToObj(GradusLexer.VOCABULARY::getLiteralName)
            .anyMatch(small::equals);
  }

  private Optional<Token> before(Token found) {
    int at = found.getTokenIndex() - 1;
    return at < 0 ? Optional.empty() : Optional.of(tokens.stream().get(at));
  }

  private Optional<Token> after(Token found) {
    int at = found.getTokenIndex() + 1;
    return at >= tokens.stream().size() ? Optional.empty() : Optional.of(tokens.stream().get(at));
  }

  private static boolean is(Optional<Token> token, int type) {
    return token.filter(found -> found.getType() == type).isPresent();
  }

  private boolean hasWhen() {
    return tokens.stream().getTokens().stream()
        .anyMatch(token -> token.getType() == GradusLexer.WHEN);
  }

  private void noteEnd(IntervalSet expected, Token found) {
    tokens
        .loneBracket()
        .ifPresentOrElse(
            lone ->
                problems.add(
                    tokens.span(lone),
                    Code.G104,
                    lone.getText(),
                    lone.getType() == GradusLexer.LPAREN
                        ? "close it; inside { } or [ ] of YAML a comma ends the text, so write the rule on a line of its own"
                        : "take it away, or open it"),
            () -> noteUnexpected(expected, found));
  }

  private void noteUnexpected(IntervalSet expected, Token found) {
    String what = found.getType() == Token.EOF ? "the end" : found.getText();
    problems.add(tokens.span(found), Code.G101, wanted(expected), what, advice(expected, found));
  }

  private static IntervalSet expected(Parser parser) {
    try {
      return new IntervalSet(parser.getExpectedTokens());
    } catch (IllegalArgumentException noState) {
      return new IntervalSet();
    }
  }

  private static boolean isRelation(Token token) {
    return switch (token.getType()) {
      case GradusLexer.LT,
          GradusLexer.LE,
          GradusLexer.GT,
          GradusLexer.GE,
          GradusLexer.EQ,
          GradusLexer.NE ->
          true;
      default -> false;
    };
  }

  // Where a value, a name or a unit is missing, that is the slip, whatever stands before it.
  private static boolean isWord(IntervalSet expected) {
    return expected.contains(GradusLexer.WORD);
  }

  private boolean isAfterComparison(Token found) {
    return tokens.stream().getTokens().subList(0, found.getTokenIndex()).stream()
        .anyMatch(
            token ->
                isRelation(token)
                    || token.getType() == GradusLexer.BETWEEN
                    || token.getType() == GradusLexer.IS);
  }

  private static boolean isValue(IntervalSet expected) {
    return expected.contains(GradusLexer.LPAREN) && expected.contains(GradusLexer.WHOLE);
  }

  private static String wanted(IntervalSet expected) {
    if (isValue(expected)) {
      return "a value";
    }
    if (expected.contains(GradusLexer.STOP)
        && expected.contains(GradusLexer.DEFER)
        && !expected.contains(GradusLexer.WORD)) {
      return "an action";
    }
    if (expected.contains(GradusLexer.WHEN)) {
      return "when or the end of the rule";
    }
    if (expected.contains(Token.EOF) || expected.contains(GradusLexer.PLUS)) {
      return "an operator or the end of the text";
    }
    if (expected.contains(GradusLexer.WHOLE)) {
      return "a number";
    }
    if (expected.size() == 1) {
      String literal = GradusLexer.VOCABULARY.getLiteralName(expected.getMinElement());
      return literal == null ? "a word" : literal.replace("'", "");
    }
    return expected.contains(GradusLexer.WORD) ? "a name" : "something else";
  }

  private String advice(IntervalSet expected, Token found) {
    if (expected.contains(GradusLexer.STOP) && !expected.contains(GradusLexer.WORD)) {
      return "begin with stop, finish, hold, advance, offer, caution, defer, start at or end";
    }
    if (found.getType() == Token.EOF) {
      return "complete it; in YAML the signs \" #\" begin a comment, and a comma ends the text inside { } and [ ]";
    }
    if (found.getType() == GradusLexer.MOST) {
      return "say how long: hold 1 min at most 2 times";
    }
    if (found.getType() == GradusLexer.SLASH
        && is(before(found), GradusLexer.AND)
        && is(after(found), GradusLexer.OR)) {
      return "write and where both are needed, or where one of them is enough";
    }
    if (found.getText().equals("per")) {
      return "a unit is one word: bpm, rpm, km/h, mL/kg/min";
    }
    if (found.getType() == GradusLexer.COMMA && isDecimal(found)) {
      return "write decimals with a point: "
          + before(found).orElseThrow().getText()
          + "."
          + after(found).orElseThrow().getText();
    }
    if (found.getType() == GradusLexer.COMMA) {
      return "a comma stands only between the arguments of a function; thousands have none";
    }
    if (found.getType() == GradusLexer.EQ && found.getText().equals("=")) {
      return "equality is one sign: x = y";
    }
    if (found.getType() == GradusLexer.IF) {
      return "put the whole if ... then ... else ... in brackets";
    }
    if (expected.contains(GradusLexer.WHEN)) {
      return "write the condition after when";
    }
    if (expected.contains(GradusLexer.AT) && expected.size() == 1) {
      return "write hold 1 min at most 2 times, or start at STAGE";
    }
    if (expected.contains(GradusLexer.WHOLE) && !isValue(expected)) {
      return "write it in digits";
    }
    return "look at what stands before it";
  }

  // Three digits behind it could be thousands as well.
  private boolean isDecimal(Token comma) {
    return is(before(comma), GradusLexer.WHOLE)
        && is(after(comma), GradusLexer.WHOLE)
        && before(comma).orElseThrow().getStopIndex() + 1 == comma.getStartIndex()
        && after(comma).orElseThrow().getStartIndex() == comma.getStopIndex() + 1
        && after(comma).orElseThrow().getText().length() != THOUSANDS;
  }

  private static String aboutCharacter(String character) {
    return switch (character) {
      case "&" -> "write and";
      case "|" -> "write or";
      case "!" -> "write not, or != for unequal";
      case "\"", "'", "\\", "`" -> "a rule has no quotes; names and options are plain words";
      case "{", "}", "[", "]" -> "use round brackets";
      case ":" -> "a colon stands only in a time such as 2:30, with seconds from 00 to 59";
      case "#" -> "YAML comments need a blank before the sign";
      default -> "use the letters a to z, digits, and the signs of the language";
    };
  }
}
