package org.gradus.library;

import java.io.IOException;
import java.io.InputStream;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.diagnostic.InputRefused;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.knowledge.CostEquation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.protocol.Brake;
import org.gradus.protocol.Ergometer;
import org.gradus.protocol.LoadComponent;
import org.gradus.protocol.LoadRange;
import org.gradus.unit.Kind;
import org.gradus.unit.Unit;

/**
 * The components of loads and the ergometers that the files of a library declare. Every file of the
 * library may use them, whatever it includes, so they are collected before anything else is read.
 */
final class Equipment {

  static final String LOADS = "loads";
  static final String ERGOMETERS = "ergometers";

  /** The id of the engine's own file. */
  static final String ID = "standard-equipment";

  private static final String STANDARD = ID + ".yaml";

  /** A component of a load, and what it can be where the same file says so. */
  record Load(LoadComponent component, Optional<LoadRange> range) {}

  /**
   * A file whose header could be read.
   *
   * @param sound whether nothing of its text was lost
   */
  record Opened(Header header, Keys keys, boolean sound) {}

  private final SourceFile standard;
  private final Keys standardKeys;
  private final Map<String, Placed<Load>> loads = new LinkedHashMap<>();
  private final Set<SourceFile> ofProtocols = new HashSet<>();
  private final Map<String, Placed<Ergometer>> ergometers = new LinkedHashMap<>();

  private Equipment(SourceFile standard, Keys standardKeys) {
    this.standard = standard;
    this.standardKeys = standardKeys;
  }

  /** What the engine's own file declares. */
  static Equipment standard() {
    Problems problems = new Problems();
    try (InputStream stream = Equipment.class.getResourceAsStream(STANDARD)) {
      if (stream == null) {
        throw new IOException("not on the class path: " + STANDARD);
      }
      SourceFile file = FileBytes.read(STANDARD, stream, problems).orElseThrow();
      Keys keys = Keys.of(file, problems).orElseThrow();
      Equipment equipment = new Equipment(file, keys);
      Header header = Header.read(keys, problems).orElseThrow();
      equipment.declare(List.of(new Opened(header, keys, true)));
      return equipment;
    } catch (IOException e) {
      throw InputRefused.inJar(STANDARD, e);
    }
  }

  /** What stands in the engine's own file. */
  Keys standardKeys() {
    return standardKeys;
  }

  /**
   * Takes in what files declare. What is wrong there is not said yet: their readers read it again.
   */
  void declare(List<Opened> files) {
    for (Opened file : files) {
      if (file.header().kind().equals("protocol")) {
        ofProtocols.add(file.header().where().file());
      }
      EquipmentReader reader = quiet(file);
      for (Entry entry : file.keys().seenEntries(LOADS)) {
        reader.load(entry).ifPresent(load -> put(loads, load.component().name(), entry, load));
      }
    }
    // An ergometer names loads of any file.
    for (Opened file : files) {
      EquipmentReader reader = quiet(file);
      for (Entry entry : file.keys().seenEntries(ERGOMETERS)) {
        reader.ergometer(entry).ifPresent(one -> put(ergometers, one.id(), entry, one));
      }
    }
  }

  private EquipmentReader quiet(Opened file) {
    return new EquipmentReader(new ScalarParser(new Problems(), file.header(), this));
  }

  private static <T> void put(Map<String, Placed<T>> all, String name, Entry entry, T value) {
    all.putIfAbsent(name, new Placed<>(entry.key().span(), value));
  }

  /** Where a load or an ergometer is declared, if not in this entry itself. */
  static <T> Optional<String> elsewhere(Map<String, Placed<T>> all, Entry entry) {
    return Optional.ofNullable(all.get(entry.key().value()))
        .map(Placed::where)
        .filter(where -> !where.equals(entry.key().span()))
        .map(where -> where.file().name());
  }

  /** The components of loads, by name. */
  Map<String, Placed<Load>> loads() {
    return loads;
  }

  /** The ergometers, by id. */
  Map<String, Placed<Ergometer>> ergometers() {
    return ergometers;
  }

  /** The unit in which each component of a load is declared. */
  Map<String, Unit> units() {
    Map<String, Unit> units = new LinkedHashMap<>();
    loads.forEach((name, load) -> units.put(name, load.value().component().unit()));
    return units;
  }

  /** What kind of value each component of a load is. */
  Map<String, Kind> kinds() {
    Map<String, Kind> kinds = new LinkedHashMap<>();
    units().forEach((name, unit) -> kinds.put(name, unit.kind()));
    return kinds;
  }

  /** The components whose range can be given: those, and the force that follows from a power. */
  Map<String, Unit> ranged() {
    Map<String, Unit> ranged = units();
    ranged.put(Brake.FORCE, Unit.KILOPOND);
    return ranged;
  }

  /** The components of which a name is one. */
  Optional<LoadComponent> load(String name) {
    return Optional.ofNullable(loads.get(name)).map(load -> load.value().component());
  }

  /** The loads that the stages of a draft set, each once, in their order. */
  static List<StageDraft.LoadDraft> setIn(Draft draft) {
    Map<String, StageDraft.LoadDraft> first = new LinkedHashMap<>();
    Stream.concat(
            draft.stages.stream(),
            draft.recovery.stream().flatMap(after -> after.stages().stream()))
        .flatMap(stage -> stage.loads().stream())
        .forEach(load -> first.putIfAbsent(load.name(), load));
    return List.copyOf(first.values());
  }

  /** The declarations of the components that a draft sets. */
  List<Placed<Load>> declarations(Draft draft) {
    return setIn(draft).stream()
        .flatMap(load -> Optional.ofNullable(loads.get(load.name())).stream())
        .toList();
  }

  /**
   * The files that declare loads of which equations are made. Files of equations count in every
   * protocol, and so these do.
   */
  Set<SourceFile> declaring(Collection<CostEquation> equations) {
    Set<SourceFile> files = new LinkedHashSet<>();
    for (CostEquation equation : equations) {
      for (String name : equation.loads()) {
        Optional.ofNullable(loads.get(name))
            .filter(load -> !isStandard(load))
            .ifPresent(load -> files.add(load.where().file()));
      }
    }
    return files;
  }

  /** Whether a protocol declares a load, which then no file without it can use. */
  boolean isOfAProtocol(String name) {
    return Optional.ofNullable(loads.get(name))
        .filter(load -> ofProtocols.contains(load.where().file()))
        .isPresent();
  }

  /** Whether the engine's own file declares it, so that it is no part of what files mean. */
  boolean isStandard(Placed<?> declared) {
    return declared.where().file().equals(standard);
  }
}
