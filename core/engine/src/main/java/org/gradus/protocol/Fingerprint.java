package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * What a protocol means, item by item, as digests: equal for files that differ in comments, order
 * of keys, line ends, titles, reasons or language only, and different where a figure, a rule or an
 * equation that the protocol uses differs. The same on every machine and in every run.
 *
 * @param items the digest of each item, by its name: {@code "walk_2.grade"}, {@code "rule
 *     steady-and-high"}, {@code "equation walking"}; 12 hexadecimal digits each
 * @param texts the digest of the words for people: titles, reasons, instructions, questions,
 *     cautions, citations; 12 hexadecimal digits
 */
public record Fingerprint(SortedMap<String, String> items, String texts) {

  /** Beyond so many characters in names the remaining items share one digest. */
  private static final int MOST_CHARACTERS = 40_000;

  private static final String THE_REST = "everything else";
  private static final int SHORT = 12;

  public Fingerprint {
    requireNonNull(items, "items");
    requireNonNull(texts, "texts");
    items = Collections.unmodifiableSortedMap(new TreeMap<>(items));
  }

  /**
   * The fingerprint of a protocol.
   *
   * @param meanings the canonical text of each item, by its name
   * @param texts the words for people, in a fixed order
   */
  public static Fingerprint of(Map<String, String> meanings, List<String> texts) {
    requireNonNull(meanings, "meanings");
    SortedMap<String, String> items = new TreeMap<>();
    List<String> rest = new ArrayList<>();
    int characters = 0;
    for (Map.Entry<String, String> item : new TreeMap<>(meanings).entrySet()) {
      characters += item.getKey().length() + SHORT;
      if (characters <= MOST_CHARACTERS) {
        items.put(item.getKey(), sum(List.of(item.getValue())).substring(0, SHORT));
      } else {
        rest.addAll(List.of(item.getKey(), item.getValue()));
      }
    }
    if (!rest.isEmpty()) {
      items.put(THE_REST, sum(rest).substring(0, SHORT));
    }
    return new Fingerprint(items, sum(texts).substring(0, SHORT));
  }

  /** One digest of all items, in 64 hexadecimal digits; the words for people are not in it. */
  public String digest() {
    List<String> all = new ArrayList<>();
    items.forEach((name, digest) -> all.addAll(List.of(name, digest)));
    return sum(all);
  }

  /**
   * The names of the items that differ, sorted: changed, missing in one, or missing in the other.
   */
  public List<String> differences(Fingerprint other) {
    TreeSet<String> names = new TreeSet<>(items.keySet());
    names.addAll(other.items.keySet());
    names.removeIf(
        name ->
            Optional.ofNullable(items.get(name))
                .equals(Optional.ofNullable(other.items.get(name))));
    return List.copyOf(names);
  }

  // The length before the text, so that no two lists of texts run together alike.
  private static String sum(List<String> texts) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      for (String text : texts) {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        digest.update((bytes.length + ":").getBytes(StandardCharsets.UTF_8));
        digest.update(bytes);
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
