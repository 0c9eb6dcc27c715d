package org.gradus.bundled;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** The bundled equations, worked out for given loads and people, one small protocol for each. */
final class Equations {

  private static final String COSTS = "common-equations.yaml";
  private static final String MAXIMA = "age-predicted-maxima.yaml";
  private static final List<String> FILES = List.of(COSTS, MAXIMA);
  private static final Library LIBRARY = library();

  private Equations() {}

  /** The ids of costs and of maximal heart rates, as the files list them. */
  static List<String> ids() {
    return FILES.stream().flatMap(file -> ids(file).stream()).toList();
  }

  private static List<String> ids(String name) {
    return Bundled.files().stream()
        .filter(file -> file.name().equals(name))
        .flatMap(file -> file.text().lines())
        .filter(line -> line.startsWith("  - id: "))
        .map(line -> line.substring("  - id: ".length()))
        .toList();
  }

  private static Library library() {
    List<SourceFile> files =
        new ArrayList<>(
            Bundled.files().stream().filter(file -> FILES.contains(file.name())).toList());
    ids(COSTS).forEach(id -> files.add(SourceFile.of(id + ".yaml", ofCost(id))));
    ids(MAXIMA).forEach(id -> files.add(SourceFile.of(id + ".yaml", ofMaximum(id))));
    return Library.of(files);
  }

  private static String head(String id) {
    return """
        format: 1
        kind: protocol
        id: %s
        version: 1.0.0
        title: One equation
        ergometer: floor
        purpose: submaximal
        for: { age: 4 years to 100 years, needs: [age, sex, mass] }
        stage_end: [advance]
        """
        .formatted(id.replace('_', '-'));
  }

  private static String ofCost(String id) {
    return head(id)
        + """
        cost: %s
        stages:
          - id: all
            lasts: 1 min
            speed: 1 mph
            grade: 0 %%
            power: 1 W
            step_height: 1 cm
            step_rate: 1 steps/min
        """
            .formatted(id);
  }

  private static String ofMaximum(String id) {
    return head(id)
        + """
        max_heart_rate: %s
        stages: [{ id: all, lasts: 1 min }]
        estimates: [{ id: it, from: finish, vo2max: (max_heart_rate in bpm) as mL/kg/min }]
        """
            .formatted(id);
  }

  /** The oxygen cost of a load; in mL/kg/min or mL/min. */
  static double cost(String id, Map<String, Quantity> given) {
    return costOf(id, given, Map.of());
  }

  /** The oxygen cost of a load for a person of one sex; in the base unit of its kind. */
  static double costOf(String id, Map<String, Quantity> given, Map<String, String> words) {
    Protocol protocol = LIBRARY.protocol(id.replace('_', '-'));
    Formula formula = protocol.assessment().costs().get(0).uptake();
    return formula.value(frame(protocol, given, words));
  }

  /** The maximal heart rate; NaN when the equation was not made for this person. */
  static double maximum(String id, int age, String sex, boolean slowed) {
    Protocol protocol = LIBRARY.protocol(id.replace('_', '-'));
    Formula formula = protocol.assessment().estimates().get(0).formula();
    Map<String, Quantity> given = Map.of("age", Quantity.of(age, Unit.YEAR));
    return formula.value(
        frame(protocol, given, Map.of("sex", sex, "lowers_heart_rate", Boolean.toString(slowed))));
  }

  private static Frame frame(
      Protocol protocol, Map<String, Quantity> given, Map<String, String> words) {
    Frame frame = new Frame(protocol.wiring().layout());
    List<Demand> demands = protocol.wiring().layout().demands();
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      Quantity quantity = given.get(demand.subject());
      String word = words.get(demand.subject());
      if (quantity != null) {
        frame.set(slot, quantity.base(), 0);
      } else if (word != null) {
        boolean choice = demand.type() instanceof Type.Choice;
        List<String> options =
            choice ? ((Type.Choice) demand.type()).options() : List.of("false", "true");
        frame.set(slot, options.indexOf(word), 0);
      }
    }
    return frame;
  }

  /** Loads as a table of a test writes them: {@code speed 3.5 mph; grade 10 %}. */
  static Map<String, Quantity> loads(String text) {
    return java.util.Arrays.stream(text.split(";"))
        .map(String::strip)
        .map(load -> load.split(" ", 3))
        .collect(
            Collectors.toMap(
                load -> load[0],
                load -> Quantity.of(Double.parseDouble(load[1]), Unit.named(load[2]).orElseThrow()),
                (first, second) -> first,
                LinkedHashMap::new));
  }
}
