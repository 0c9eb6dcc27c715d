package org.gradus.training;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.gradus.knowledge.Band;
import org.gradus.knowledge.Band.Measure;
import org.gradus.knowledge.EnergyEquation;
import org.gradus.knowledge.Extent;
import org.gradus.knowledge.Given;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.IntensityMethod;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.LoadRange;
import org.gradus.rule.answer.Truth;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.gradus.words.Message;
import org.gradus.words.Name;

/** Works out the bands of one person. */
final class PersonalBands {

  static final String VO2MAX = "vo2max";

  private final IntensityBands bands;
  private final Given given;
  private final Optional<Quantity> mass;
  private final Map<String, LoadRange> possible;
  private final Optional<IntensityMethod> byHeartRate;
  private final Optional<IntensityMethod> byUptake;

  /**
   * @param given what is known of the person
   * @param possible what the components of a load can be, by name, where that is known
   */
  PersonalBands(Given given, Map<String, LoadRange> possible, IntensityBands bands) {
    this.bands = bands;
    this.given = given;
    this.possible = possible;
    this.mass = of(Attribute.MASS.word(), Unit.KILOGRAM);
    this.byHeartRate = method(Kind.HEART_RATE);
    this.byUptake = method(Kind.UPTAKE);
  }

  private Optional<Quantity> of(String name, Unit unit) {
    return Optional.ofNullable(given.values().get(name)).map(base -> Quantity.ofBase(base, unit));
  }

  // The first that applies to this person and has all it needs.
  private Optional<IntensityMethod> method(Kind kind) {
    return methods(kind).stream().filter(method -> against(method).isEmpty()).findFirst();
  }

  private List<IntensityMethod> methods(Kind kind) {
    return bands.methods().stream().filter(method -> method.formula().kind() == kind).toList();
  }

  private List<Message> against(IntensityMethod method) {
    Optional<Message> upsideDown =
        method.formula().kind() == Kind.HEART_RATE ? upsideDown() : Optional.empty();
    if (upsideDown.isPresent()) {
      return List.of(upsideDown.get());
    }
    Optional<List<Message>> barred =
        method
            .onlyWhen()
            .filter(when -> when.test(given) != Truth.TRUE)
            .map(when -> when.against(given));
    return barred.orElseGet(() -> lacking(method));
  }

  // With one of the two wrong every method would give rates, some of them below that at rest.
  private Optional<Message> upsideDown() {
    Optional<Quantity> maximum = of("max_heart_rate", Unit.BPM);
    Optional<Quantity> rest = of("resting.heart_rate", Unit.BPM);
    return maximum.isPresent()
            && rest.isPresent()
            && !Quantity.isBelow(rest.get().base(), maximum.get().base())
        ? Optional.of(Message.of(ResultMessage.UPSIDE_DOWN, maximum.get(), rest.get()))
        : Optional.empty();
  }

  private List<Message> lacking(IntensityMethod method) {
    List<Message> gaps = method.formula().gaps(given.with("share", 0));
    boolean ofCapacity = method.formula().kind() == Kind.UPTAKE;
    return gaps.isEmpty() || given.has(VO2MAX) || !ofCapacity
        ? gaps
        : List.of(Message.of(ResultMessage.NO_CAPACITY));
  }

  List<Message> remarks() {
    List<Message> remarks = new ArrayList<>();
    lacking(byHeartRate, Kind.HEART_RATE, remarks);
    lacking(byUptake, Kind.UPTAKE, remarks);
    if (byUptake.isPresent() && mass.isPresent()) {
      energies(remarks);
    }
    return remarks;
  }

  private void lacking(Optional<IntensityMethod> found, Kind kind, List<Message> remarks) {
    List<IntensityMethod> all = methods(kind);
    if (found.isEmpty()) {
      List<Message> reasons =
          all.stream().flatMap(method -> against(method).stream()).distinct().toList();
      remarks.add(
          Message.of(
              kind == Kind.HEART_RATE ? ResultMessage.NO_HEART_RATES : ResultMessage.NO_UPTAKES,
              reasons));
    } else if (!found.get().equals(all.get(0))) {
      remarks.add(
          Message.of(
              ResultMessage.OTHER_METHOD,
              new Name(found.get().id()),
              new Name(all.get(0).id()),
              against(all.get(0))));
    }
  }

  private void energies(List<Message> remarks) {
    EnergyEquation used = bands.energies().get(0);
    Given one = given.with("uptake", Unit.MET.toBase(1));
    for (EnergyEquation other : bands.energies().subList(1, bands.energies().size())) {
      double off = 100 * (other.rate().value(one) / used.rate().value(one) - 1);
      remarks.add(
          Message.of(
              off < 0 ? ResultMessage.ENERGY_LESS : ResultMessage.ENERGY_MORE,
              new Name(used.id()),
              used.source().toString(),
              new Name(other.id()),
              String.format(Locale.ROOT, "%.0f", Math.abs(off))));
    }
  }

  BandPlan plan(Band band) {
    Optional<Range> heartRate = byHeartRate.flatMap(method -> range(band, method, Unit.BPM));
    Optional<Range> uptake =
        byUptake.flatMap(method -> range(band, method, Unit.ML_PER_KG_PER_MINUTE));
    return new BandPlan(
        band,
        heartRate,
        heartRate.flatMap(found -> byHeartRate.map(IntensityMethod::id)),
        uptake,
        uptake.flatMap(found -> byUptake.map(IntensityMethod::id)),
        uptake.map(found -> each(found, value -> Quantity.ofBase(value.base(), Unit.MET))),
        mass.isPresent() ? uptake.map(found -> each(found, this::energy)) : Optional.empty(),
        band.by(Measure.RPE).map(extent -> new Range(extent.from(), extent.to())),
        uptake.map(this::loads).orElse(List.of()),
        bands.volume().flatMap(volume -> volume.in(band.id())));
  }

  private Optional<Range> range(Band band, IntensityMethod method, Unit unit) {
    return band.by(method.of()).map(extent -> range(extent, method, unit));
  }

  private Range range(Extent extent, IntensityMethod method, Unit unit) {
    UnaryOperator<Quantity> at =
        share -> Quantity.ofBase(method.formula().value(given.with("share", share)), unit);
    return new Range(extent.from().map(at), extent.to().map(at));
  }

  private static Range each(Range range, UnaryOperator<Quantity> change) {
    return new Range(range.from().map(change), range.to().map(change));
  }

  private Quantity energy(Quantity uptake) {
    double rate = bands.energies().get(0).rate().value(given.with("uptake", uptake));
    return Quantity.ofBase(rate, Unit.KCAL_PER_MINUTE);
  }

  private List<LoadPlan> loads(Range uptake) {
    return bands.exercises().stream()
        .map(exercise -> new LoadFinder(exercise, given, mass, possible).plan(uptake))
        .toList();
  }
}
