package org.gradus.examples.workbench;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.gradus.knowledge.Band;
import org.gradus.knowledge.Extent;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.WeeklyVolume;
import org.gradus.training.BandPlan;
import org.gradus.training.LoadPlan;
import org.gradus.training.Range;
import org.gradus.training.Training;
import org.gradus.unit.Quantity;

/** How to train by a result, for programs. A band that is open at an end has no value there. */
final class PlanMap {

  private PlanMap() {}

  static Map<String, Object> plan(Training plan) {
    IntensityBands bands = plan.bands();
    Map<String, Object> map =
        Named.values(
            "by", bands.id(),
            "version", bands.version(),
            "title", bands.title(),
            "scale", bands.scale(),
            "bands", Named.list(plan.plans(), PlanMap::band));
    plan.withheld().ifPresent(why -> map.put("withheld", why));
    plan.volume().ifPresent(volume -> map.put("week", week(volume)));
    map.put("remarks", plan.remarks());
    return map;
  }

  private static Map<String, Object> band(BandPlan plan) {
    Map<String, Object> map = Named.values("id", plan.id());
    plan.band().by(Band.Measure.RESERVE).ifPresent(share -> map.put("reserve", extent(share)));
    range(map, "heartRate", plan.heartRate());
    plan.heartRateBy().ifPresent(method -> map.put("heartRateBy", method));
    range(map, "uptake", plan.uptake());
    plan.uptakeBy().ifPresent(method -> map.put("uptakeBy", method));
    range(map, "mets", plan.mets());
    range(map, "energy", plan.energy());
    range(map, "rating", plan.rating());
    map.put("loads", Named.list(plan.loads(), PlanMap::load));
    plan.weekly().ifPresent(time -> map.put("weekly", Named.quantity(time)));
    return Named.sourced(map, plan.band().source());
  }

  private static Map<String, Object> load(LoadPlan load) {
    Map<String, Object> map =
        Named.values("exercise", load.exercise().id(), "title", load.exercise().title());
    if (load instanceof LoadPlan.Reachable reachable) {
      map.put("of", load.exercise().solved());
      range(map, "load", Optional.of(reachable.load()));
      Named.put(map, "remark", reachable.remark().map(Object::toString).orElse(""));
    } else {
      map.put("whyNot", load.words());
    }
    return Named.sourced(map, load.exercise().source());
  }

  private static Map<String, Object> week(WeeklyVolume volume) {
    return Named.sourced(
        Named.values(
            "metMinutes",
            ends(Optional.of(volume.metMinutes().low()), Optional.of(volume.metMinutes().high()))),
        volume.source());
  }

  private static void range(Map<String, Object> map, String name, Optional<Range> range) {
    range.ifPresent(found -> map.put(name, ends(found.from(), found.to())));
  }

  private static Map<String, Object> extent(Extent extent) {
    return ends(extent.from(), extent.to());
  }

  private static Map<String, Object> ends(Optional<Quantity> from, Optional<Quantity> to) {
    Map<String, Object> ends = new LinkedHashMap<>();
    from.ifPresent(low -> ends.put("from", Named.quantity(low)));
    to.ifPresent(high -> ends.put("to", Named.quantity(high)));
    return ends;
  }
}
