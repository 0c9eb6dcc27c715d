package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.knowledge.Equations;
import org.gradus.protocol.Protocol;

/** Reads all files of a library: first each by itself, then each protocol with what it includes. */
final class Loader {

  private static final List<String> KINDS = List.of("protocol", "rules", "equations");

  private final List<SourceFile> files;
  private final Problems problems = new Problems();
  private final Map<String, Draft> sets = new LinkedHashMap<>();
  private final List<Draft> protocols = new ArrayList<>();
  private final Map<String, Header> headers = new LinkedHashMap<>();
  private Equations equations = Equations.NONE;

  Loader(List<SourceFile> files) {
    this.files = files;
  }

  Map<String, Protocol> load() {
    files.forEach(this::read);
    Map<String, Protocol> loaded = new LinkedHashMap<>();
    Includes includes = new Includes(sets, problems);
    for (Draft protocol : protocols) {
      Draft whole = includes.resolve(protocol);
      Assembly.of(whole, equations, problems).ifPresent(ready -> loaded.put(ready.id(), ready));
    }
    problems.throwIfAny();
    return loaded;
  }

  private void read(SourceFile file) {
    YamlReader.read(file, problems)
        .flatMap(content -> Keys.of(content, "the file", problems))
        .ifPresent(keys -> Header.read(keys, problems).ifPresent(header -> read(keys, header)));
  }

  private void read(Keys keys, Header header) {
    Header other = headers.putIfAbsent(header.kind() + " " + header.id(), header);
    if (other != null) {
      problems.add(
          header.where(),
          Code.G306,
          header.kind() + " " + header.id() + " (also in " + other.where().file() + ")");
    }
    Texts texts = new Texts(problems, header.sources());
    switch (header.kind()) {
      case "protocol" -> {
        Draft draft = new Draft(header);
        new ProtocolReader(texts).read(keys, draft);
        protocols.add(draft);
      }
      case "rules" -> {
        Draft draft = new Draft(header);
        new SetReader(texts).read(keys, draft);
        sets.put(header.id(), draft);
      }
      case "equations" -> equations = equations.and(new EquationReader(texts).read(keys));
      default ->
          problems.add(
              header.where(),
              Code.G305,
              "kind " + header.kind(),
              "one of " + String.join(", ", KINDS),
              "choose one of them");
    }
    keys.done();
  }
}
