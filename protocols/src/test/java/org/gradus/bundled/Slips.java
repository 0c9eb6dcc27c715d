package org.gradus.bundled;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.gradus.diagnostic.SourceFile;

/**
 * What happens to a file when a person edits it: a line is lost, a unit or a digit is another, a
 * key is misspelt, two stages change places. Words for people and citations are left alone: no
 * program can know what they should say.
 */
final class Slips {

  private static final Pattern WORDS =
      Pattern.compile(
          "^\\s*(- )?(format|kind|id|version|title|language|why|do|note|ask|watch|say|reason"
              + "|assumes|cautions):.*");
  // To lose what holds anyway is no slip.
  private static final Pattern DEFAULT =
      Pattern.compile("\\s*(outside: defer|if_missing: go_on|then: finish|then: rest|cost: none)");
  private static final Pattern KEY = Pattern.compile("(?<=^|[\\s{])([a-z_]{3,})(?=: |:$)");
  private static final Pattern DIGIT = Pattern.compile("(?<![A-Za-z_0-9-])\\d");
  private static final Pattern UNIT =
      Pattern.compile(
          "(?<=\\d |in |as )(mL/kg/min|L/min|km/h|kgm/min|cycles/min|mph|bpm|mmHg|rpm|min|years|inch|mile|kg|lb|km|cm|s|h|m|W|%)(?![\\w/])");
  private static final Map<String, String> MISTAKEN =
      Map.ofEntries(
          Map.entry("mL/kg/min", "L/min"),
          Map.entry("L/min", "mL/kg/min"),
          Map.entry("km/h", "mph"),
          Map.entry("mph", "km/h"),
          Map.entry("kgm/min", "W"),
          Map.entry("W", "kgm/min"),
          Map.entry("cycles/min", "steps/min"),
          Map.entry("bpm", "mmHg"),
          Map.entry("mmHg", "bpm"),
          Map.entry("rpm", "bpm"),
          Map.entry("min", "s"),
          Map.entry("s", "min"),
          Map.entry("h", "min"),
          Map.entry("years", "min"),
          Map.entry("inch", "cm"),
          Map.entry("cm", "inch"),
          Map.entry("mile", "km"),
          Map.entry("km", "mile"),
          Map.entry("m", "km"),
          Map.entry("kg", "lb"),
          Map.entry("lb", "kg"),
          Map.entry("%", ""));

  /** A file with one slip. */
  record Slip(SourceFile file, String kind, String before, String after) {
    @Override
    public String toString() {
      return file.name() + ", " + kind + ": " + before.strip() + " -> " + after.strip();
    }
  }

  private final SourceFile file;
  private final List<String> lines;
  private final List<Integer> meant;

  private Slips(SourceFile file) {
    this.file = file;
    this.lines = file.text().lines().toList();
    this.meant = IntStream.range(0, lines.size()).filter(this::isMeant).boxed().toList();
  }

  /** Some slips in a file: always the same for the same file and number. */
  static List<Slip> of(SourceFile file, int number) {
    Slips slips = new Slips(file);
    Random random = new Random(file.name().hashCode());
    List<Slip> all = new ArrayList<>();
    for (int tries = 0; all.size() < number && tries < 40 * number; tries++) {
      slips.slip(random).stream()
          .filter(slip -> all.stream().noneMatch(slip::equals))
          .forEach(all::add);
    }
    return all;
  }

  // Lines that say something to the program: no comment, no citation, no words for people.
  private boolean isMeant(int line) {
    String text = lines.get(line);
    boolean silent = text.isBlank() || text.strip().startsWith("#");
    return !silent
        && !WORDS.matcher(text).matches()
        && !List.of("sources", "cautions", "accept", "cues", "notes").contains(section(line));
  }

  private String section(int line) {
    for (int i = line; i >= 0; i--) {
      if (lines.get(i).matches("\\s*cautions:|[a-z_]+:.*")
          && (i < line || lines.get(i).matches("[a-z_]+:.*"))) {
        return lines.get(i).strip().replaceAll(":.*", "");
      }
    }
    return "";
  }

  private List<Slip> slip(Random random) {
    int line = meant.get(random.nextInt(meant.size()));
    String before = lines.get(line);
    return switch (random.nextInt(5)) {
      case 0 ->
          DEFAULT.matcher(before).matches()
              ? List.of()
              : List.of(replaced("a lost line", line, 1, List.of()));
      case 1 -> changed("another unit", line, UNIT, random, MISTAKEN::get);
      case 2 -> changed("another digit", line, DIGIT, random, digit -> other(digit, random));
      case 3 -> changed("a misspelt key", line, KEY, random, Slips::misspelt);
      default ->
          isStage(line) && isStage(line + 1)
              ? List.of(
                  replaced("stages out of order", line, 2, List.of(lines.get(line + 1), before)))
              : List.of();
    };
  }

  private boolean isStage(int line) {
    return line < lines.size() && lines.get(line).matches("  - \\{ id: \\w+, .*lasts: .*");
  }

  private static String other(String digit, Random random) {
    return Integer.toString((Integer.parseInt(digit) + 1 + random.nextInt(9)) % 10);
  }

  private static String misspelt(String key) {
    int middle = key.length() / 2;
    String swapped =
        key.substring(0, middle - 1)
            + key.charAt(middle)
            + key.charAt(middle - 1)
            + key.substring(middle + 1);
    return swapped.equals(key) ? key + "s" : swapped;
  }

  private List<Slip> changed(
      String kind,
      int line,
      Pattern part,
      Random random,
      java.util.function.UnaryOperator<String> by) {
    String text = lines.get(line);
    List<MatchResult> found = part.matcher(text).results().toList();
    if (found.isEmpty()) {
      return List.of();
    }
    MatchResult one = found.get(random.nextInt(found.size()));
    String after =
        text.substring(0, one.start()) + by.apply(one.group()) + text.substring(one.end());
    return List.of(replaced(kind, line, 1, List.of(after)));
  }

  private Slip replaced(String kind, int line, int count, List<String> by) {
    List<String> changed = new ArrayList<>(lines.subList(0, line));
    changed.addAll(by);
    changed.addAll(lines.subList(line + count, lines.size()));
    return new Slip(
        SourceFile.of(file.name(), String.join("\n", changed) + "\n"),
        kind,
        lines.get(line),
        by.isEmpty() ? "" : by.get(0));
  }
}
