package org.gradus.cases;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Map;
import org.gradus.library.Library;
import org.gradus.session.Session;

/**
 * One case: a person, what happens, and what must be answered.
 *
 * @param id its name in its file
 * @param about what it shows, in a sentence, or empty
 * @param protocol the protocol it is about
 * @param person the person
 * @param settings settings of the protocol that are changed for it, by name
 * @param begins whether the first READY is followed at 0:00 without being said
 * @param changes changes of the protocol's file, from the way to a value to its new text
 * @param steps what happens, in order
 * @param expected what must have come of it in the end
 */
public record Case(
    String id,
    String about,
    String protocol,
    Participant person,
    Map<String, String> settings,
    boolean begins,
    Map<String, String> changes,
    List<CaseStep> steps,
    Expected expected) {

  public Case {
    requireNonNull(about, "about");
    requireNonNull(changes, "changes");
    requireNonNull(expected, "expected");
    requireNonNull(id, "id");
    requireNonNull(person, "person");
    requireNonNull(protocol, "protocol");
    requireNonNull(settings, "settings");
    requireNonNull(steps, "steps");
    settings = Map.copyOf(settings);
    changes = Map.copyOf(changes);
    steps = List.copyOf(steps);
  }

  /** Runs it. */
  public CaseReport run(Library library) {
    requireNonNull(library, "library");
    return CaseRunner.run(this, library);
  }

  /**
   * Plays it and returns the session as it stands after the last event, also where something was
   * answered otherwise than the case says.
   *
   * @throws org.gradus.diagnostic.GradusException when the protocol, a setting or the person is
   *     refused
   */
  public Session play(Library library) {
    requireNonNull(library, "library");
    return CaseRunner.play(this, library);
  }

  @Override
  public String toString() {
    return id;
  }
}
