package org.gradus.library;

import java.util.Collection;
import java.util.Map;
import java.util.Set;
import org.gradus.diagnostic.SourceFile;

/**
 * What people read of some files, in another language.
 *
 * @param of the files of protocols and rule sets that it translates
 * @param everywhere whether it also translates a file that every protocol can use, such as one of
 *     norms
 * @param language the language, as in {@code es}
 * @param names the names of the files, each with what people read
 * @param texts the sentences of the files, each with what people read
 */
record TranslatedWords(
    Set<SourceFile> of,
    boolean everywhere,
    String language,
    Map<String, String> names,
    Map<String, String> texts) {

  TranslatedWords {
    of = Set.copyOf(of);
    names = Map.copyOf(names);
    texts = Map.copyOf(texts);
  }

  /** Whether it concerns a protocol that rests on some files. */
  boolean concerns(Collection<SourceFile> files) {
    return everywhere || files.stream().anyMatch(of::contains);
  }
}
