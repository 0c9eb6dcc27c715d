package org.gradus.bundled;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The surnames of the authors that a repository cites, and where they stand outside citations.
 *
 * <p>In a citation an author's surname is followed by initials: {@code Surname AB}, then a comma, a
 * full stop, a semicolon, "et al" or a year. The journals written the same way ({@code Am Heart J
 * 1973;85}) are told apart by the volume after the year. A surname anywhere else is outside a
 * citation, whether as a word or as a part of a longer name such as {@code surname_1971} or {@code
 * surnameRule}.
 */
final class Surnames {

  private static final Pattern AUTHOR =
      Pattern.compile(
          "(?<surname>(?:Mc|O'|Mac)?\\p{Lu}\\p{Ll}+(?:-\\p{Lu}\\p{Ll}+)?)"
              + " (?:\\p{Lu}{1,3}|\\p{Lu}-\\p{Lu})"
              + "(?=[,.;:)]| et\\s+al| as | and | (?:19|20)\\d\\d(?!;\\d))");

  private static final Pattern WORD = Pattern.compile("\\p{L}+");

  /** Between a small letter and a capital one, as in {@code surnameRule}. */
  private static final Pattern HUMP = Pattern.compile("(?<=\\p{Ll})(?=\\p{Lu})");

  private final Set<String> all = new TreeSet<>();

  /** The surnames in these texts. */
  static Surnames in(List<String> texts) {
    Surnames surnames = new Surnames();
    for (String text : texts) {
      Matcher author = AUTHOR.matcher(text);
      while (author.find()) {
        surnames.all.add(plain(author.group("surname")));
      }
    }
    return surnames;
  }

  /** In small letters without marks. */
  Set<String> all() {
    return all;
  }

  /** The surnames in a text that are no part of a citation, each with its line. */
  List<String> outsideCitations(String text) {
    List<String> found = new ArrayList<>();
    String[] lines = AUTHOR.matcher(text).replaceAll(" ").split("\n", -1);
    for (int i = 0; i < lines.length; i++) {
      Matcher word = WORD.matcher(lines[i]);
      while (word.find()) {
        if (isSurname(word.group())) {
          found.add(word.group() + " in line " + (i + 1) + ": " + lines[i].strip());
        }
      }
    }
    return found;
  }

  // A surname may have a capital letter in the middle, so that two parts make one.
  private boolean isSurname(String word) {
    String before = "";
    for (String part : HUMP.splitAsStream(word).toList()) {
      String plain = plain(part);
      if (all.contains(plain) || all.contains(before + plain)) {
        return true;
      }
      before = plain;
    }
    return false;
  }

  private static String plain(String surname) {
    if (surname.chars().allMatch(letter -> letter < 128)) {
      return surname.toLowerCase(Locale.ROOT);
    }
    return Normalizer.normalize(surname, Normalizer.Form.NFD)
        .replaceAll("\\p{M}", "")
        .toLowerCase(Locale.ROOT);
  }
}
