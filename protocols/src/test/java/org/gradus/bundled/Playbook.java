package org.gradus.bundled;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.gradus.cases.Case;
import org.gradus.cases.CaseReport;
import org.gradus.cases.Cases;
import org.gradus.cases.Coverage;
import org.gradus.cases.Failure;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;

/**
 * The cases of one bundled protocol: its own, and those of the rule sets it includes as far as it
 * has their rules.
 */
record Playbook(String protocol, List<Case> own, List<Case> included, Map<String, Boolean> ofSets) {

  private static final String SUFFIX = ".cases.yaml";

  static Playbook of(Library library, String id) {
    return of(library, id, Parts.of(id));
  }

  /** As {@link #of(Library, String)}, of a library made of some files. */
  static Playbook of(Library library, String id, List<SourceFile> files) {
    List<Case> own = new ArrayList<>();
    List<Case> included = new ArrayList<>();
    Map<String, Boolean> ofSets = new TreeMap<>();
    Set<String> rules = rules(library.protocol(id));
    List<String> parts = files.stream().map(SourceFile::name).toList();
    for (SourceFile file : Bundled.cases()) {
      String name = file.name().substring(0, file.name().length() - SUFFIX.length());
      if (name.equals(id)) {
        own.addAll(Cases.read(file).cases());
      } else if (parts.contains(name + ".yaml")) {
        for (Case one : Cases.read(about(id, file)).cases()) {
          boolean has = rules.contains(one.id());
          ofSets.put(name + " " + one.id(), has);
          if (has) {
            included.add(one);
          }
        }
      }
    }
    return new Playbook(id, own, included, ofSets);
  }

  private static SourceFile about(String id, SourceFile file) {
    return SourceFile.of(file.name(), file.text().replaceFirst("(?m)^for: .*$", "for: " + id));
  }

  private static Set<String> rules(Protocol protocol) {
    Set<String> ids = new TreeSet<>();
    List.of(
            protocol.rules().before(),
            protocol.rules().anyTime(),
            protocol.rules().stageEnd(),
            protocol.rules().recovery())
        .forEach(list -> list.stream().map(ProtocolRule::id).forEach(ids::add));
    return ids;
  }

  private List<CaseReport> run(Library library) {
    List<CaseReport> reports = new ArrayList<>();
    own.forEach(one -> reports.add(one.run(library)));
    included.forEach(one -> reports.add(one.run(library)));
    return reports;
  }

  List<Failure> failures(Library library) {
    return run(library).stream().flatMap(report -> report.failures().stream()).toList();
  }

  /** Whether every case goes as it says; looks no further once one does not. */
  boolean isAsSaid(Library library) {
    return Stream.concat(own.stream(), included.stream())
        .allMatch(one -> one.run(library).failures().isEmpty());
  }

  Optional<Coverage> coverage(Library library) {
    return run(library).stream().map(CaseReport::coverage).reduce(Coverage::and);
  }
}
