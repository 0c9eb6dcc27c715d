package org.gradus.library;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.library.Draft.OfferDraft;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;

/** Reads what the tester answers or chooses before the test. */
final class QuestionReader {

  private static final String YES_NO = "yes-no";
  private static final String CHOICE = "choice";

  private final ScalarParser texts;

  QuestionReader(ScalarParser texts) {
    this.texts = texts;
  }

  Optional<Draft.Ask> question(String name, Keys keys) {
    Optional<Scalar> kind = keys.needText("kind");
    boolean choice = kind.filter(word -> word.value().equals(CHOICE)).isPresent();
    boolean yesNo = kind.filter(word -> word.value().equals(YES_NO)).isPresent();
    List<Scalar> words = choice ? keys.needTexts("options") : List.of();
    Optional<Type> type = kind.flatMap(word -> answerType(word, words));
    List<OfferDraft> options = choice || yesNo ? List.of() : options(keys, type);
    String prompt = ScalarParser.string(keys.needText("ask"));
    Optional<Scalar> range = keys.text("range");
    Optional<Expression> unless = keys.text("unless").flatMap(texts::expression);
    Optional<Expression> fallback = keys.text("default").flatMap(text -> fallback(text, yesNo));
    Citation source = texts.source(keys);
    keys.done();
    if (yesNo) {
      keys.idle("options", "an input that is answered with yes or no", "write kind: choice");
    } else {
      keys.idle("unless", "an input that is no yes-no", "only a yes or no has a natural answer");
    }
    if (choice || yesNo) {
      keys.idle("range", "an input that is no measure", "give it the kind of a measure");
    } else if (keys.has("options")) {
      keys.idle("range", "an input with options", "print the options, or give a range");
    }
    Optional<QuantityRange> limits =
        range.flatMap(text -> kindOf(type).flatMap(of -> texts.range(text, of)));
    boolean whole =
        unless.isPresent() == keys.has("unless") && fallback.isPresent() == keys.has("default");
    return whole
        ? type.map(
            answer -> new Draft.Ask(answer, prompt, limits, options, fallback, unless, source))
        : Optional.empty();
  }

  private static Optional<Kind> kindOf(Optional<Type> type) {
    return type.filter(Type.Measure.class::isInstance).map(of -> ((Type.Measure) of).kind());
  }

  // yes and no are no words of the language, but of files.
  private Optional<Expression> fallback(Scalar text, boolean yesNo) {
    boolean word = yesNo && (text.value().equals("yes") || text.value().equals("no"));
    return word
        ? Optional.of(new Expression.Reference(text.span(), text.value()))
        : texts.expression(text);
  }

  private List<OfferDraft> options(Keys keys, Optional<Type> type) {
    List<OfferDraft> options = new ArrayList<>();
    for (YamlNode item : keys.items("options")) {
      if (item instanceof Scalar text) {
        quantity(text, type)
            .ifPresent(
                value -> options.add(new OfferDraft(value, Optional.empty(), Citation.NONE)));
      } else {
        Keys.of(item, "an option", texts.problems())
            .flatMap(option -> option(option, type))
            .ifPresent(options::add);
      }
    }
    return options;
  }

  private Optional<OfferDraft> option(Keys keys, Optional<Type> type) {
    Optional<Quantity> value = keys.needText("value").flatMap(text -> quantity(text, type));
    Optional<Expression> when = keys.text("when").flatMap(texts::expression);
    Citation source = texts.source(keys);
    keys.done();
    return value.map(offered -> new OfferDraft(offered, when, source));
  }

  private Optional<Quantity> quantity(Scalar text, Optional<Type> type) {
    return kindOf(type).flatMap(kind -> texts.quantity(text, kind));
  }

  private Optional<Type> answerType(Scalar kind, List<Scalar> options) {
    if (kind.value().equals(YES_NO)) {
      return Optional.of(Type.CONDITION);
    } else if (kind.value().equals(CHOICE)) {
      return options.isEmpty() ? Optional.empty() : texts.options(options).map(Type.Choice::new);
    }
    List<String> words = ScalarParser.kinds();
    words.addAll(List.of(YES_NO, CHOICE));
    return texts.word(kind, words, word -> word).flatMap(Kind::named).map(Type.Measure::new);
  }
}
