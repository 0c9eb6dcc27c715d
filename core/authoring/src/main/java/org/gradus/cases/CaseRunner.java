package org.gradus.cases;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.session.Session;

/** Runs one case: prepares the file and the settings it asks for, and plays it. */
final class CaseRunner {

  private CaseRunner() {}

  static CaseReport run(Case told, Library library) {
    List<Failure> failures = new ArrayList<>();
    Optional<Library> changed = changed(told, library, failures);
    if (changed.isEmpty()) {
      return new CaseReport(failures, none(told, library));
    }
    try {
      Protocol protocol = with(changed.get().protocol(told.protocol()), told.settings());
      failures.addAll(new Strangers(library, protocol).in(told));
      Play play = new Play(told, protocol);
      failures.addAll(play.run());
      return new CaseReport(failures, play.coverage());
    } catch (GradusException refused) {
      failures.add(
          new Failure(told.id(), "the beginning", "the person", "taken", Play.message(refused)));
      return new CaseReport(failures, none(told, library));
    }
  }

  static Session play(Case told, Library library) {
    Library changed = changed(told, library, new ArrayList<>()).orElse(library);
    Play play = new Play(told, with(changed.protocol(told.protocol()), told.settings()));
    play.run();
    return play.session();
  }

  private static Coverage none(Case told, Library library) {
    return Coverage.of(library.protocol(told.protocol()), Set.of(), Set.of(), Set.of());
  }

  // The library with the case's changes; nothing when it is refused, as it may have to be.
  private static Optional<Library> changed(Case told, Library library, List<Failure> failures) {
    if (told.changes().isEmpty()) {
      return Optional.of(library);
    }
    Optional<List<SourceFile>> files = FileChange.of(library, told.protocol(), told.changes());
    if (files.isEmpty()) {
      String ways = String.join(", ", told.changes().keySet());
      failures.add(new Failure(told.id(), "change", "the file", "a text at " + ways, "none"));
      return Optional.empty();
    }
    List<String> wanted = told.expected().errors().orElse(List.of()).stream().sorted().toList();
    List<String> found = List.of();
    Optional<Library> loaded = Optional.empty();
    try {
      loaded = Optional.of(Library.of(files.get()));
    } catch (FileRefused refused) {
      found =
          refused.diagnostics().stream()
              .map(Diagnostic::code)
              .map(Enum::name)
              .distinct()
              .sorted()
              .toList();
    }
    if (!found.equals(wanted)) {
      failures.add(new Failure(told.id(), "change", "errors", wanted.toString(), found.toString()));
    }
    return loaded;
  }

  private static Protocol with(Protocol protocol, Map<String, String> settings) {
    Protocol changed = protocol;
    for (Map.Entry<String, String> setting : settings.entrySet()) {
      changed = changed.withWritten(setting.getKey(), setting.getValue());
    }
    return changed;
  }
}
