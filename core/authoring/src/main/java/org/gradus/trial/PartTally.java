package org.gradus.trial;

import static java.util.Objects.requireNonNull;

import java.io.Serializable;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import org.gradus.trial.Trial.Part;

/**
 * What the people of one part of a trial came to. It may be made on another machine than that of
 * {@link Trial#summary}, and comes there by Java's serialization, between programs of one version.
 *
 * @param part the part
 * @param groups everybody in it, and subgroups by sex and by age, each with its tally
 */
public record PartTally(Part part, Map<String, Tally> groups) implements Serializable {
  public PartTally {
    requireNonNull(groups, "groups");
    requireNonNull(part, "part");
    groups = Collections.unmodifiableMap(new TreeMap<>(groups));
  }
}
