package org.gradus.exchange.fhir;

import java.io.IOException;
import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.InputRefused;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Keys;
import org.gradus.library.Library;
import org.gradus.library.YamlNode;
import org.gradus.unit.Unit;

/** The codes of {@code codes.yaml}. */
final class Codes {

  static final String UCUM = "http://unitsofmeasure.org";

  private static final String FILE = "codes.yaml";

  private final Map<String, Coding> concepts;
  private final Map<Unit, String> units;

  /**
   * A code.
   *
   * @param system the code system
   * @param code the code
   * @param display what the system calls it, or empty
   * @param status how far it was checked
   */
  record Coding(String system, String code, String display, String status) {

    Map<String, Object> json() {
      Map<String, Object> json = BundleParts.map("system", system, "code", code);
      if (!display.isEmpty()) {
        json.put("display", display);
      }
      return json;
    }
  }

  private Codes(Map<String, Coding> concepts, Map<Unit, String> units) {
    this.concepts = concepts;
    this.units = units;
  }

  /** Reads the file that comes with the library. */
  static Codes read() {
    try (InputStream stream = Codes.class.getResourceAsStream(FILE)) {
      if (stream == null) {
        throw new IOException("not on the class path: " + FILE);
      }
      return of(Library.file(FILE, stream));
    } catch (IOException e) {
      throw InputRefused.inJar(FILE, e);
    }
  }

  private static Codes of(SourceFile file) {
    Problems problems = new Problems();
    Map<String, Coding> concepts = new LinkedHashMap<>();
    Map<Unit, String> units = new LinkedHashMap<>();
    Keys.of(file, problems)
        .ifPresent(
            keys -> {
              for (YamlNode.Entry entry : keys.entries("concepts")) {
                Keys.of(entry.value(), "a concept", problems)
                    .ifPresent(concept -> concepts.put(entry.key().value(), coding(concept)));
              }
              for (YamlNode.Entry entry : keys.entries("units")) {
                String symbol = entry.key().value();
                Unit unit = symbol.isEmpty() ? Unit.ONE : Unit.named(symbol).orElseThrow();
                keys.scalar(entry.value(), symbol).ifPresent(ucum -> units.put(unit, ucum.value()));
              }
            });
    if (!problems.isEmpty()) {
      throw new FileRefused(problems.sorted());
    }
    return new Codes(Map.copyOf(concepts), Map.copyOf(units));
  }

  private static Coding coding(Keys keys) {
    return new Coding(
        text(keys, "system"),
        text(keys, "code"),
        keys.text("display").map(YamlNode.Scalar::value).orElse(""),
        text(keys, "status"));
  }

  private static String text(Keys keys, String key) {
    return keys.needText(key).map(YamlNode.Scalar::value).orElse("");
  }

  Map<String, Coding> concepts() {
    return concepts;
  }

  Optional<Coding> concept(String name) {
    return Optional.ofNullable(concepts.get(name));
  }

  /** A concept with its codes, as far as there are any, and words. */
  Map<String, Object> concept(String words, String... names) {
    List<Map<String, Object>> codings =
        List.of(names).stream().flatMap(name -> concept(name).stream()).map(Coding::json).toList();
    Map<String, Object> json = new LinkedHashMap<>();
    if (!codings.isEmpty()) {
      json.put("coding", codings);
    }
    json.put("text", words);
    return json;
  }

  String ucum(Unit unit) {
    return Optional.ofNullable(units.get(unit)).orElseThrow();
  }

  /** The unit of a UCUM code, among these. */
  Optional<Unit> unit(String ucum, Unit... among) {
    for (Unit unit : among) {
      if (ucum(unit).equals(ucum)) {
        return Optional.of(unit);
      }
    }
    return Optional.empty();
  }
}
