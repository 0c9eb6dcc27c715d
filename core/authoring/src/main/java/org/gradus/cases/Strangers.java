package org.gradus.cases;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.diagnostic.Suggestion;
import org.gradus.library.Library;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.Protocol;

/**
 * Finds what is told of a person though no protocol of a library asks for it: a misspelt name,
 * which would be passed over without a word. What other protocols ask for may stand, since the
 * cases of a rule set are run with each that includes it.
 */
final class Strangers {

  private final Library library;
  private final Protocol protocol;

  Strangers(Library library, Protocol protocol) {
    this.library = library;
    this.protocol = protocol;
  }

  List<Failure> in(Case told) {
    List<Failure> failures = new ArrayList<>();
    Set<String> baselines = new TreeSet<>(told.person().resting().keySet());
    baselines.addAll(told.person().upright().keySet());
    look(told, told.person().facts().keySet(), false, failures);
    look(told, baselines, true, failures);
    return failures;
  }

  private void look(Case told, Set<String> names, boolean read, List<Failure> failures) {
    Set<String> here = known(protocol, read);
    if (here.containsAll(names)) {
      return;
    }
    Set<String> known = new TreeSet<>(here);
    library.protocols().forEach(id -> known.addAll(known(library.protocol(id), read)));
    for (String name : names) {
      if (!known.contains(name)) {
        String wanted =
            read ? "a signal of a protocol" : "an attribute or a question of a protocol";
        String help = Suggestion.help(name, known, "no protocol of the library has it");
        failures.add(new Failure(told.id(), "the person", name, wanted, "none; " + help));
      }
    }
  }

  private static Set<String> known(Protocol protocol, boolean read) {
    Instruments instruments = protocol.instruments();
    Set<String> known = new TreeSet<>();
    if (read) {
      known.addAll(instruments.signals().keySet());
    } else {
      known.addAll(instruments.questions().keySet());
      List.of(Attribute.values()).forEach(attribute -> known.add(attribute.word()));
      known.add(Instruments.CLEARED_AFTER_STOP);
    }
    return known;
  }
}
