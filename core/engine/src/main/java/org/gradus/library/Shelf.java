package org.gradus.library;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.SourceFile;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.EnergyEquation;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.LineRise;
import org.gradus.knowledge.MaxHeartRate;
import org.gradus.knowledge.ModelError;
import org.gradus.knowledge.NormTable;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.knowledge.Repeat;
import org.gradus.knowledge.Spread;

/** What the files of a library offer to its protocols. Filled while they are read. */
final class Shelf {

  final Equipment equipment = Equipment.standard();
  final Map<String, Draft> sets = new LinkedHashMap<>();

  /** The kind of each file, by its id; for remedies. */
  final Map<String, String> kinds = new LinkedHashMap<>();

  final Map<String, CostEquation> costs = new LinkedHashMap<>();
  final Map<String, MaxHeartRate> maxHeartRates = new LinkedHashMap<>();

  final Map<String, Spread> spreads = new LinkedHashMap<>();
  final Map<String, Repeat> repeats = new LinkedHashMap<>();
  final Map<String, ModelError> models = new LinkedHashMap<>();

  /** The values that results can have, by the names of the results. */
  final Map<String, PlausibleRange> results = new LinkedHashMap<>();

  /** When a line through stages counts as rising, if a file says so. */
  Optional<LineRise> lineRise = Optional.empty();

  final Map<String, EnergyEquation> energies = new LinkedHashMap<>();
  final Map<String, NormTable> norms = new LinkedHashMap<>();
  final Map<String, IntensityBands> bands = new LinkedHashMap<>();

  /** What each file says, by its id; for words in another language. */
  final Map<String, Keys> contents = new LinkedHashMap<>();

  final List<TranslatedWords> translations = new ArrayList<>();

  /** The files whose figures count in every protocol. */
  final Set<SourceFile> common = new LinkedHashSet<>();

  /** Ids of equations that are wrong. It has been said, so their uses are passed over. */
  final Set<String> faulty = new HashSet<>();

  /** Whether a file could not be read at all. What is not found may be in it. */
  boolean torn;

  /** The maximal heart rate that replaces one of an older id, if there is one. */
  Optional<MaxHeartRate> replacement(String id) {
    return maxHeartRates.values().stream().filter(rate -> rate.replaces().contains(id)).findFirst();
  }
}
