package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.text.Normalizer;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.gradus.knowledge.Citation;

/**
 * What a protocol is.
 *
 * @param id describes what is done: {@code graded-walk-standard}
 * @param version raised with any change of a figure or a rule
 * @param title one line for people
 * @param fingerprint what it means, item by item, as digests; its settings among it
 * @param language the language of its texts: {@code en}
 * @param ergometer {@code treadmill}, {@code leg-cycle}, {@code arm-crank}, {@code step}, {@code
 *     track} or {@code floor}
 * @param purpose {@code submaximal} or {@code maximal}
 * @param sources the publications it draws on
 * @param cautions what everybody who uses it should know
 */
public record Heading(
    String id,
    String version,
    String title,
    Fingerprint fingerprint,
    String language,
    String ergometer,
    String purpose,
    List<Citation> sources,
    List<String> cautions) {

  public Heading {
    requireNonNull(cautions, "cautions");
    requireNonNull(ergometer, "ergometer");
    requireNonNull(fingerprint, "fingerprint");
    requireNonNull(id, "id");
    requireNonNull(language, "language");
    requireNonNull(purpose, "purpose");
    requireNonNull(sources, "sources");
    requireNonNull(title, "title");
    requireNonNull(version, "version");
    sources = List.copyOf(sources);
    cautions = List.copyOf(cautions);
  }

  /** One digest of all that it means, in 64 hexadecimal digits. */
  public String digest() {
    return fingerprint.digest();
  }

  /**
   * Whether a word stands in its id, title, ergometer, purpose or citations. Upper and lower case
   * and marks on letters make no difference: {@code "cycle"}, {@code "1954"}, {@code
   * "\u00c5strand"}.
   */
  public boolean mentions(String word) {
    requireNonNull(word, "word");
    Stream<String> texts =
        Stream.concat(
            Stream.of(id, title, ergometer, purpose), sources.stream().map(Citation::text));
    String plain = plain(word);
    return texts.anyMatch(text -> plain(text).contains(plain));
  }

  private static String plain(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFD)
        .replaceAll("\\p{M}", "")
        .toLowerCase(Locale.ROOT);
  }
}
