package org.gradus.trial;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.SplittableRandom;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.rule.check.Layout;
import org.gradus.rule.plan.Frame;

/**
 * What virtual people are like. Every trait is a line of a file, with its source, and can be set
 * otherwise in a file of one's own.
 *
 * <pre>{@code
 * Population adults = Population.read(Bundled.people());
 * }</pre>
 */
public final class Population {

  private final String title;
  private final Layout layout;
  private final Map<Trait, Distribution> traits;
  private final Physiology physiology;

  Population(String title, Layout layout, Map<Trait, Distribution> traits, Physiology physiology) {
    this.title = title;
    this.layout = layout;
    this.physiology = physiology;
    this.traits = Collections.unmodifiableMap(new EnumMap<>(traits));
  }

  /**
   * Reads a file of the kind {@code population}.
   *
   * @throws FileRefused with every problem found
   */
  public static Population read(SourceFile file) {
    return PopulationReader.read(file);
  }

  /** One line for people. */
  public String title() {
    return title;
  }

  /** How each trait is distributed. */
  public Map<Trait, Distribution> traits() {
    return traits;
  }

  /** What it says of bodies beside their traits. */
  Physiology physiology() {
    return physiology;
  }

  /** Draws all traits of a person. */
  Traits draw(SplittableRandom random) {
    Frame frame = new Frame(layout);
    Map<Trait, Double> drawn = new EnumMap<>(Trait.class);
    int slot = 0; // slots are given in the order of the traits
    for (Map.Entry<Trait, Distribution> trait : traits.entrySet()) {
      double value = trait.getValue().draw(frame, random);
      // People give their age in completed years.
      double kept = trait.getKey() == Trait.AGE ? Math.floor(value) : value;
      frame.set(slot++, kept, 0);
      drawn.put(trait.getKey(), kept);
    }
    return new Traits(drawn);
  }
}
