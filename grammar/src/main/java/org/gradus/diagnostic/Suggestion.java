package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.ResourceBundle;
import org.gradus.words.Message;
import org.gradus.words.MessageKey;

/** Finds what was probably meant by a misspelt word. */
public final class Suggestion {

  private enum Remedy implements MessageKey {
    DID_YOU_MEAN,
    COMMA_BETWEEN,
    AS_GIVEN;

    @Override
    public String pattern(Locale language) {
      return ResourceBundle.getBundle("org.gradus.diagnostic.Suggestion", language)
          .getString(name());
    }
  }

  private Suggestion() {}

  /**
   * The known word nearest to a given one by edit distance, if it is near enough to be a slip: at
   * most a third of the letters, and at least one of several. A word that differs only in upper and
   * lower case is the nearest of all.
   */
  public static Optional<String> nearest(String word, Collection<String> known) {
    int most = Math.min(Math.max(1, word.length() / 3), word.length() - 1);
    return known.stream()
        .filter(candidate -> slips(word, candidate, most) <= most)
        .min(
            Comparator.comparingInt((String candidate) -> slips(word, candidate, most))
                .thenComparing(Comparator.naturalOrder()));
  }

  private static int slips(String word, String candidate, int most) {
    if (word.equalsIgnoreCase(candidate)) {
      return 0;
    }
    // Each letter too many is a slip, so that a very long word is not measured at all.
    boolean tooLong = Math.abs(word.length() - candidate.length()) > most;
    return tooLong ? Integer.MAX_VALUE : distance(word, candidate);
  }

  /**
   * What to do about a word that is not known: "did you mean X?" when there is a near one, "put a
   * comma between them" where it is several known words with nothing but blanks between them, else
   * the given fallback.
   */
  public static String help(String word, Collection<String> known, String otherwise) {
    requireNonNull(otherwise, "otherwise");
    return help(word, known, Message.of(Remedy.AS_GIVEN, otherwise)).toString();
  }

  /**
   * The same as a message, where the fallback is one.
   *
   * @param otherwise what to do when no known word is near
   */
  public static Message help(String word, Collection<String> known, Message otherwise) {
    requireNonNull(otherwise, "otherwise");
    List<String> words = List.of(word.strip().split("\\s+"));
    if (words.size() > 1 && known.containsAll(words)) {
      return Message.of(Remedy.COMMA_BETWEEN, words);
    }
    return nearest(word, known)
        .map(near -> Message.of(Remedy.DID_YOU_MEAN, near))
        .orElse(otherwise);
  }

  // Optimal string alignment: a swap of two neighbouring letters is one slip.
  private static int distance(String a, String b) {
    int[] beforeLast = new int[b.length() + 1];
    int[] last = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      last[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int[] row = new int[b.length() + 1];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int cost = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        row[j] = Math.min(Math.min(row[j - 1] + 1, last[j] + 1), last[j - 1] + cost);
        boolean swapped =
            i > 1
                && j > 1
                && a.charAt(i - 1) == b.charAt(j - 2)
                && a.charAt(i - 2) == b.charAt(j - 1);
        if (swapped) {
          row[j] = Math.min(row[j], beforeLast[j - 2] + 1);
        }
      }
      beforeLast = last;
      last = row;
    }
    return last[b.length()];
  }
}
