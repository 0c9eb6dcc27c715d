package org.gradus.library;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.EnergyEquation;
import org.gradus.knowledge.Reckoning;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.check.Vocabulary;
import org.gradus.unit.Kind;

/** Reads conventions by which an uptake becomes an energy. */
final class EnergyReader {

  private static final Vocabulary NAMES = PersonNames.with(Map.of("uptake", Kind.UPTAKE));

  private final ScalarParser texts;
  private final Shelf shelf;

  EnergyReader(ScalarParser texts, Shelf shelf) {
    this.texts = texts;
    this.shelf = shelf;
  }

  void read(Keys keys) {
    for (YamlNode item : keys.items("energy")) {
      Keys.of(item, "an energy", texts.problems()).ifPresent(this::energy);
    }
  }

  private void energy(Keys keys) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Reckoning> rate =
        keys.needText("rate")
            .flatMap(texts::expression)
            .flatMap(
                text -> Reckoning.of(text, List.of(Kind.ENERGY_RATE), NAMES, texts.problems()));
    Citation source = texts.neededSource(keys);
    keys.done();
    if (id.isPresent() && rate.isPresent()) {
      String name = id.get().value();
      EnergyEquation energy = new EnergyEquation(name, rate.get(), source);
      boolean taken = shelf.costs.containsKey(name) || shelf.maxHeartRates.containsKey(name);
      if (taken || shelf.energies.putIfAbsent(name, energy) != null) {
        texts.problems().add(id.get().span(), Code.G306, "the energy " + name);
      }
    } else {
      id.ifPresent(name -> shelf.faulty.add(name.value()));
    }
  }
}
