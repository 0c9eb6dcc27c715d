package org.gradus.library;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.protocol.Setting;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * In which unit a load is shown: that in which the file writes it, or what it is worked out from.
 */
final class ShownUnits {

  private static final String PREVIOUS = "previous_stage.";

  private final Draft draft;
  private final Set<String> seen = new HashSet<>();

  private ShownUnits(Draft draft) {
    this.draft = draft;
  }

  static Unit of(StageDraft.LoadDraft load, Draft draft) {
    if (load.kind() == Kind.NUMBER) {
      return load.unit();
    }
    ShownUnits units = new ShownUnits(draft);
    return units.first(load.expressions(), load.kind()).orElse(load.unit());
  }

  private Optional<Unit> first(List<Expression> values, Kind kind) {
    return values.stream().flatMap(value -> unit(value, kind).stream()).findFirst();
  }

  private Optional<Unit> unit(Expression part, Kind kind) {
    if (part instanceof Expression.Literal literal) {
      return Optional.of(literal.quantity().unit()).filter(unit -> unit.kind() == kind);
    } else if (part instanceof Expression.AsUnit as) {
      return Optional.of(as.unit().unit()).filter(unit -> unit.kind() == kind);
    } else if (part instanceof Expression.Reference reference) {
      return seen.add(reference.name()) ? named(reference.name(), kind) : Optional.empty();
    }
    return first(part.parts(), kind);
  }

  private Optional<Unit> named(String name, Kind kind) {
    if (draft.questions.containsKey(name)) {
      return Optional.ofNullable(draft.questions.get(name)).flatMap(ask -> unit(ask.value(), kind));
    } else if (draft.defines.containsKey(name)) {
      return Optional.ofNullable(draft.defines.get(name))
          .flatMap(define -> unit(define.value().body(), kind));
    } else if (draft.settings.containsKey(name)) {
      return Optional.ofNullable(draft.settings.get(name))
          .map(setting -> setting.value().value())
          .filter(Setting.Figure.class::isInstance)
          .map(figure -> ((Setting.Figure) figure).quantity().unit())
          .filter(unit -> unit.kind() == kind);
    }
    return name.startsWith(PREVIOUS)
        ? first(everywhere(name.substring(PREVIOUS.length())), kind)
        : Optional.empty();
  }

  private Optional<Unit> unit(Draft.Ask ask, Kind kind) {
    return Stream.concat(
            ask.options().stream().map(Draft.OfferDraft::value),
            ask.range().stream().map(range -> range.low()))
        .map(Quantity::unit)
        .filter(unit -> unit.kind() == kind)
        .findFirst()
        .or(() -> first(ask.fallback().stream().toList(), kind));
  }

  private List<Expression> everywhere(String load) {
    return draft.stages.stream()
        .flatMap(stage -> stage.loads().stream())
        .filter(other -> other.name().equals(load))
        .flatMap(other -> other.expressions().stream())
        .toList();
  }
}
