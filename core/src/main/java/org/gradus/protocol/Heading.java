package org.gradus.protocol;

import java.util.List;
import org.gradus.knowledge.Citation;

/**
 * What a protocol is.
 *
 * @param id describes what is done: {@code graded-walk-standard}
 * @param version raised with any change of a figure or a rule
 * @param title one line for people
 * @param digest a fingerprint of the files it was made of and of its settings, in hexadecimal
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
    String digest,
    String language,
    String ergometer,
    String purpose,
    List<Citation> sources,
    List<String> cautions) {

  public Heading {
    sources = List.copyOf(sources);
    cautions = List.copyOf(cautions);
  }
}
