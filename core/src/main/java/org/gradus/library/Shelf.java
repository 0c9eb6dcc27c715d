package org.gradus.library;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.MaxHeartRate;

/** What the files of a library offer to its protocols. Filled while they are read. */
final class Shelf {

  final Map<String, Draft> sets = new LinkedHashMap<>();
  final Map<String, CostEquation> costs = new LinkedHashMap<>();
  final Map<String, MaxHeartRate> maxHeartRates = new LinkedHashMap<>();

  /** Ids of equations that are wrong. It has been said, so their uses are passed over. */
  final Set<String> faulty = new HashSet<>();

  /** Whether a file could not be read at all. What is not found may be in it. */
  boolean torn;
}
