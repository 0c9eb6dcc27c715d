package org.gradus.library;

import java.util.List;
import java.util.OptionalInt;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.rule.syntax.Expression.Name;

/** Finds the stages that texts mention. */
final class Stages {

  private final Draft draft;
  private final Problems problems;
  private final List<String> ids;

  Stages(Draft draft, Problems problems) {
    this.draft = draft;
    this.problems = problems;
    this.ids = draft.stages.stream().map(StageDraft::id).toList();
  }

  /** The place of a stage; notes it when there is none. */
  OptionalInt place(Name stage) {
    int place = ids.indexOf(stage.text());
    if (place >= 0) {
      return OptionalInt.of(place);
    }
    if (draft.isWhole("stages")) {
      problems.add(
          stage.span(),
          Code.G309,
          "stage",
          stage.text(),
          problems.help(stage.text(), ids, "the stages are " + String.join(", ", ids)));
    }
    return OptionalInt.empty();
  }
}
