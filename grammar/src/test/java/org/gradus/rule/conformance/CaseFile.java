package org.gradus.rule.conformance;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gradus.rule.conformance.Case.Ask;
import org.gradus.rule.conformance.Case.Expected;

/** Reads one file of cases. */
final class CaseFile {

  // TEXT => ANSWER, or TEXT => ANSWER within TOLERANCE
  private static final Pattern SHORT =
      Pattern.compile("(.*\\S)\\s+=>\\s+(\\S.*?)(?:\\s+within\\s+(.+))?", Pattern.DOTALL);

  private static final Set<String> KEYS =
      Set.of("readings", "define", "is", "within", "unknown", "error", "does", "source");

  private final Map<String, Object> file;
  private final String group;

  private CaseFile(Map<String, Object> file) {
    this.file = file;
    this.group = Yaml.text(get(file, "group").orElse("names"));
  }

  /** The cases written out in all files. */
  static List<Case> all() {
    return Yaml.files().stream().flatMap(file -> of(file).stream()).toList();
  }

  private static List<Case> of(Path path) {
    CaseFile file = new CaseFile(Yaml.read(path));
    List<Case> cases = new ArrayList<>();
    get(file.file, "cases")
        .map(Yaml::map)
        .orElse(Map.of())
        .forEach(
            (id, node) -> {
              try {
                cases.add(
                    node instanceof String line ? file.inShort(id, line) : file.whole(id, node));
              } catch (RuntimeException e) {
                throw new IllegalStateException(path.getFileName() + ", " + id, e);
              }
            });
    return cases;
  }

  private static Optional<Object> get(Map<String, Object> node, String key) {
    return Optional.ofNullable(node.get(key));
  }

  private Case inShort(String id, String line) {
    Matcher parts = SHORT.matcher(line);
    if (!parts.matches()) {
      throw new IllegalArgumentException("no answer: " + line);
    }
    String answer = parts.group(2);
    boolean wrong = answer.startsWith("G") && answer.contains(" at ");
    Ask usual = wrong ? Ask.RULE : isTruth(answer) ? Ask.CONDITION : Ask.VALUE;
    Ask ask = get(file, "ask").map(Yaml::text).map(CaseFile::ask).orElse(usual);
    boolean words = ask.compareTo(Ask.RULE) >= 0;
    Expected expected =
        new Expected(
            Optional.of(answer).filter(text -> !wrong && !words),
            Optional.ofNullable(parts.group(3)),
            Map.of(),
            wrong ? List.of(answer) : List.of(),
            Optional.of(answer).filter(text -> !wrong && words));
    return made(id, ask, parts.group(1), Map.of(), Map.of(), expected);
  }

  static boolean isTruth(String answer) {
    return answer.equals("yes") || answer.equals("no");
  }

  private Case whole(String id, Object node) {
    Map<String, Object> map = Yaml.map(node);
    List<String> asked = map.keySet().stream().filter(key -> !KEYS.contains(key)).toList();
    if (asked.size() != 1) {
      throw new IllegalArgumentException("asks for " + asked);
    }
    Expected expected =
        new Expected(
            get(map, "is").map(Yaml::text),
            get(map, "within").map(Yaml::text),
            get(map, "unknown").map(CaseFile::reasons).orElse(Map.of()),
            get(map, "error").map(Yaml::list).orElse(List.of()).stream().map(Yaml::text).toList(),
            get(map, "does").map(Yaml::text));
    Case made =
        made(
            id,
            ask(asked.get(0)),
            joined(map.getOrDefault(asked.get(0), "")),
            get(map, "readings").map(Yaml::texts).orElse(Map.of()),
            get(map, "define").map(Yaml::map).orElse(Map.of()),
            expected);
    String source = Yaml.text(get(map, "source").orElse(made.source()));
    return new Case(
        made.group(),
        id,
        made.ask(),
        made.text(),
        made.readings(),
        made.usual(),
        made.define(),
        expected,
        source);
  }

  // One reason, or several where one call asks for several readings of one name.
  private static Map<String, List<String>> reasons(Object node) {
    Map<String, List<String>> reasons = new LinkedHashMap<>();
    Yaml.map(node)
        .forEach(
            (subject, given) ->
                reasons.put(subject, Yaml.list(given).stream().map(Yaml::text).toList()));
    return reasons;
  }

  private Case made(
      String id,
      Ask ask,
      String text,
      Map<String, String> readings,
      Map<String, Object> define,
      Expected expected) {
    return new Case(
        group,
        id,
        ask,
        text,
        readings,
        get(file, "readings").map(Yaml::texts).orElse(Map.of()),
        define.isEmpty() ? get(file, "define").map(Yaml::map).orElse(Map.of()) : define,
        expected,
        Yaml.text(get(file, "source").orElse("")));
  }

  // A long text may be given in pieces, of which some are repeated.
  private static String joined(Object node) {
    return Yaml.list(node).stream()
        .map(
            piece ->
                piece instanceof String text
                    ? text
                    : Yaml.texts(piece).entrySet().stream()
                        .map(entry -> entry.getKey().repeat(Integer.parseInt(entry.getValue())))
                        .collect(Collectors.joining()))
        .collect(Collectors.joining());
  }

  private static Ask ask(String word) {
    return Ask.valueOf(word.toUpperCase(Locale.ROOT).replace(' ', '_'));
  }
}
