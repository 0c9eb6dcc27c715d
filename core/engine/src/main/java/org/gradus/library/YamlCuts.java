package org.gradus.library;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Lost;
import org.gradus.library.YamlNode.Scalar;

/**
 * Finds the texts that YAML has cut at a comma: inside curly and square brackets the comma of a
 * call such as {@code lesser(a, b)} ends the text. The pieces are taken out, so that the cut is the
 * only error reported about them.
 */
final class YamlCuts {

  private static final Pattern DIGITS_AT_END = Pattern.compile("[0-9]$");

  private final Problems problems;

  YamlCuts(Problems problems) {
    this.problems = problems;
  }

  /** The entries of a mapping in curly brackets. A piece is a key without a colon. */
  List<Entry> mended(List<Entry> entries) {
    List<Entry> mended = new ArrayList<>();
    int open = 0;
    boolean cut = false;
    for (Entry entry : entries) {
      boolean piece = isPiece(entry);
      if (piece && open == 0 && !mended.isEmpty() && isDecimal(last(mended), entry.key())) {
        decimal(last(mended), entry.key());
        Entry before = mended.remove(mended.size() - 1);
        mended.add(new Entry(before.key(), new Lost(before.value().span())));
      } else if (piece && open > 0 && !cut) {
        note(entry.key().span());
        Entry before = mended.remove(mended.size() - 1);
        mended.add(new Entry(before.key(), new Lost(before.value().span())));
      } else if (!piece || open == 0) {
        mended.add(piece ? withoutColon(entry.key()) : entry);
      }
      cut = piece && open > 0;
      open = Math.max(0, cut ? open + openIn(entry.key()) : openIn(entry.value()));
    }
    return List.copyOf(mended);
  }

  private static Entry last(List<Entry> entries) {
    return entries.get(entries.size() - 1);
  }

  private static boolean isDecimal(Entry before, Scalar piece) {
    return before.value() instanceof Scalar text
        && text.plain()
        && DIGITS_AT_END.matcher(text.value()).find()
        && Character.isDigit(piece.value().charAt(0))
        && piece.span().start() == text.span().end() + 1;
  }

  private void decimal(Entry before, Scalar piece) {
    String whole = ((Scalar) before.value()).value();
    String number = whole.replaceAll(".*?([0-9]+)$", "$1") + "." + piece.value();
    problems.add(
        before.value().span().to(piece.span()),
        Code.G311,
        "a comma stands inside a number",
        "write decimals with a point: " + number);
  }

  // The first word is what was meant to be the key.
  private Entry withoutColon(Scalar text) {
    problems.add(
        text.span(),
        Code.G304,
        "a key with a value",
        "a text",
        text.value().contains(":") ? "put a blank behind the colon" : "write key: value");
    String word = text.value().split("[:\\s]", 2)[0];
    return new Entry(new Scalar(text.span(), word, true), new Lost(text.span()));
  }

  private static boolean isPiece(Entry entry) {
    boolean empty =
        entry.value() instanceof Scalar value && value.plain() && value.value().isEmpty();
    Span key = entry.key().span();
    int end = entry.key().plain() ? key.end() : key.end() + 1;
    return empty && !isColonNext(key.file().text(), end);
  }

  private static boolean isColonNext(String text, int from) {
    int i = from;
    while (i < text.length() && Character.isWhitespace(text.charAt(i))) {
      i++;
    }
    return i < text.length() && text.charAt(i) == ':';
  }

  /** The items of a list in square brackets. A piece follows a bracket that is still open. */
  List<YamlNode> mendedItems(List<YamlNode> items) {
    List<YamlNode> mended = new ArrayList<>();
    int open = 0;
    for (YamlNode item : items) {
      boolean piece = open > 0;
      if (piece && !(mended.get(mended.size() - 1) instanceof Lost)) {
        note(item.span());
        mended.add(new Lost(mended.remove(mended.size() - 1).span()));
      } else if (!piece) {
        mended.add(item);
      }
      open = Math.max(0, open + openIn(item));
    }
    return List.copyOf(mended);
  }

  private static int openIn(YamlNode item) {
    return item instanceof Scalar text && text.plain()
        ? text.value().chars().map(c -> c == '(' ? 1 : c == ')' ? -1 : 0).sum()
        : 0;
  }

  private void note(Span piece) {
    problems.add(
        piece,
        Code.G311,
        "a comma has cut this text off from the one before",
        "put the whole text in quotes, or write the item over several lines");
  }
}
