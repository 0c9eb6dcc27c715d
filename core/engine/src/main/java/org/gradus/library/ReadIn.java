package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.library.YamlNode.Scalar;

/** Finds the stages in which a line of the schedule is read, or a reminder is due. */
final class ReadIn {

  private static final String STAGES = "stages";
  private static final String PAUSES = "pauses";
  private static final Pattern WHERE_READ = Pattern.compile("where ([a-z][a-z0-9_]*) is read");
  private static final Pattern NUMBERS = Pattern.compile("stages ([0-9]{1,4}) to ([0-9]{1,4})");

  private final Draft draft;
  private final Problems problems;

  ReadIn(Draft draft, Problems problems) {
    this.draft = draft;
    this.problems = problems;
  }

  /** The ids of the stages, in their order; none where none is named, which means all of them. */
  List<String> stages(List<Scalar> in) {
    Set<String> named = new LinkedHashSet<>();
    in.forEach(name -> named.addAll(named(name)));
    return draft.stages.stream().map(StageDraft::id).filter(named::contains).toList();
  }

  private List<String> named(Scalar name) {
    Matcher where = WHERE_READ.matcher(name.value());
    return where.matches() ? whereRead(name, where.group(1)) : called(name);
  }

  // There may be none: not every test that includes a reminder about the cuff reads a pressure.
  private List<String> whereRead(Scalar name, String signal) {
    if (draft.isWhole("signals", "measure") && !draft.signals.containsKey(signal)) {
      String help = problems.help(signal, draft.signals.keySet(), "name a signal");
      problems.add(name.span(), Code.G309, "signal", signal, help);
    }
    List<String> found = new ArrayList<>();
    for (MeasureDraft line : draft.measure) {
      boolean reads = line.line().reads(signal);
      if (reads && line.in().isEmpty()) {
        draft.stages.forEach(stage -> found.add(stage.id()));
      } else if (reads) {
        found.addAll(stages(line.in()));
      }
    }
    return found;
  }

  private List<String> called(Scalar name) {
    Matcher numbers = NUMBERS.matcher(name.value());
    List<String> found = new ArrayList<>();
    int number = 0;
    for (StageDraft stage : draft.stages) {
      number += stage.pause() || stage.warmUp() ? 0 : 1;
      boolean meant =
          name.value().equals(stage.id())
              || stage.group().filter(name.value()::equals).isPresent()
              || block(stage).filter(name.value()::equals).isPresent()
              || (name.value().equals(STAGES) && !stage.pause())
              || (name.value().equals(PAUSES) && stage.pause())
              || (numbers.matches()
                  && !stage.pause()
                  && !stage.warmUp()
                  && number >= Integer.parseInt(numbers.group(1))
                  && number <= Integer.parseInt(numbers.group(2)));
      if (meant) {
        found.add(stage.id());
      }
    }
    if (found.isEmpty() && draft.isWhole("stages")) {
      unknown(name);
    }
    return found;
  }

  private static Optional<String> block(StageDraft stage) {
    return stage.round().map(round -> round.block().value());
  }

  private void unknown(Scalar name) {
    Set<String> known = new LinkedHashSet<>();
    for (StageDraft stage : draft.stages) {
      block(stage).ifPresent(known::add);
      known.add(stage.group().orElse(stage.id()));
    }
    known.addAll(List.of(STAGES, PAUSES));
    String otherwise = "write " + String.join(", ", known) + ", or stages 2 to 4";
    String help = problems.help(name.value(), known, otherwise);
    problems.add(name.span(), Code.G309, "stage", name.value(), help);
  }
}
