package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Collects diagnostics while files are read, so that one run reports them all. Equal diagnostics
 * count once: a rule set is looked at again for each protocol that includes it.
 */
public final class Problems {

  // Enough to repair a file in one go; a file that is wrong throughout must not flood the reader.
  private static final int MOST_SHOWN = 200;

  private final Set<Diagnostic> found = new LinkedHashSet<>();
  private final List<Misspelt> misspelt = new ArrayList<>();
  private int noted;

  /**
   * A key that is not known where it stands, but nearly.
   *
   * @param diagnostic what is said of it; its place is that of the key
   * @param meant the key that was most likely meant
   */
  public record Misspelt(Diagnostic diagnostic, String meant) {
    public Misspelt {
      requireNonNull(diagnostic, "diagnostic");
      requireNonNull(meant, "meant");
    }
  }

  /** Nothing noted yet. */
  public Problems() {}

  /** Notes a diagnostic. */
  public void add(Diagnostic diagnostic) {
    requireNonNull(diagnostic, "diagnostic");
    noted++;
    if (found.size() < MOST_SHOWN) {
      found.add(diagnostic);
    }
  }

  /** Notes a misspelt key, so that what stands under it can be read as it was meant. */
  public void add(Misspelt key) {
    requireNonNull(key, "key");
    if (!isFull()) {
      misspelt.add(key);
    }
    add(key.diagnostic());
  }

  /** The keys that were misspelt, in the order in which they were found. */
  public List<Misspelt> misspelt() {
    return List.copyOf(misspelt);
  }

  /** Notes a diagnostic about one place. */
  public void add(Span where, Code code, String... arguments) {
    add(Diagnostic.at(where, code, arguments));
  }

  /**
   * How often something was noted. Also what is not shown counts, because it was shown before or
   * because there is too much of it: a text is sound when the count is the same before and after.
   */
  public int count() {
    return noted;
  }

  /**
   * Whether there is so much wrong that further problems are not shown. To word each of them well
   * would be long work for nothing: to look for a near word among many, for each of many.
   */
  public boolean isFull() {
    return found.size() >= MOST_SHOWN;
  }

  /** What {@link Suggestion#help} says; only the fallback where it would not be shown. */
  public String help(String word, Collection<String> known, String otherwise) {
    requireNonNull(otherwise, "otherwise");
    return isFull() ? otherwise : Suggestion.help(word, known, otherwise);
  }

  /** Whether nothing was noted. */
  public boolean isEmpty() {
    return found.isEmpty();
  }

  /** What was noted, ordered by file and place. */
  public List<Diagnostic> sorted() {
    List<Diagnostic> sorted = new ArrayList<>(found);
    sorted.sort(Diagnostic.BY_PLACE);
    return sorted;
  }

  /**
   * Ends the reading of files.
   *
   * @throws FileRefused when anything was noted
   */
  public void throwIfAny() {
    if (!found.isEmpty()) {
      throw new FileRefused(sorted());
    }
  }
}
