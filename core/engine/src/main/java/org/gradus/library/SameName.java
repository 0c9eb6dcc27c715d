package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Diagnostic.Label;

/**
 * Joins problems that say the same of one name in several places: when a declaration is misspelt or
 * missing, that is one slip however often the name is used.
 */
final class SameName {

  // More places than this show nothing new.
  private static final int MOST_PLACES = 5;

  private SameName() {}

  static List<Diagnostic> joined(List<Diagnostic> problems) {
    Map<List<Object>, Diagnostic> joined = new LinkedHashMap<>();
    for (Diagnostic problem : problems) {
      joined.merge(key(problem), problem, SameName::both);
    }
    return List.copyOf(joined.values());
  }

  private static List<Object> key(Diagnostic problem) {
    boolean ofName =
        problem.code() == Code.G201 || problem.code() == Code.G309 || problem.code() == Code.G406;
    return ofName ? List.of(problem.code(), problem.arguments()) : List.of(problem);
  }

  private static Diagnostic both(Diagnostic first, Diagnostic second) {
    List<Label> labels = new ArrayList<>(first.labels());
    if (labels.size() < MOST_PLACES) {
      labels.addAll(second.labels());
    }
    return new Diagnostic(first.code(), labels, first.arguments());
  }
}
