package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.ProtocolRule.Then;
import org.gradus.rule.syntax.RuleText;
import org.gradus.rule.syntax.Sentence;

/** Reads lists of rules. */
final class RuleReader {

  private final Texts texts;

  RuleReader(Texts texts) {
    this.texts = texts;
  }

  /** The rules of a list; a rule may be a bare sentence. */
  List<RuleDraft> rules(List<YamlNode> items, String group) {
    List<RuleDraft> rules = new ArrayList<>();
    for (YamlNode item : items) {
      String name = group + "-" + (rules.size() + 1);
      if (item instanceof Scalar sentence && !sentence.value().isBlank()) {
        RuleText.sentence(sentence.span(), texts.problems())
            .ifPresent(read -> rules.add(bare(name, sentence, read)));
      } else {
        Keys.of(item, "a rule", texts.problems())
            .flatMap(keys -> rule(keys, name))
            .ifPresent(rules::add);
      }
    }
    return rules;
  }

  private static RuleDraft bare(String name, Scalar text, Sentence sentence) {
    return new RuleDraft(
        name, text.span(), sentence, "", "", Citation.NONE, Optional.empty(), false, Then.REST);
  }

  private Optional<RuleDraft> rule(Keys keys, String name) {
    Optional<Scalar> text = keys.needText("rule");
    Optional<Scalar> id = keys.text("id");
    String why = Texts.string(keys.text("why"));
    String instruction = Texts.string(keys.text("do"));
    Citation source = sourceWithNote(keys);
    Optional<Duration> confirm = keys.text("confirm").flatMap(texts::stretch);
    boolean stagesOnly =
        keys.text("during")
            .flatMap(word -> texts.word(word, List.of("stages"), w -> w))
            .isPresent();
    Then then =
        keys.text("then").flatMap(word -> texts.constant(word, Then.class)).orElse(Then.REST);
    keys.done();
    return text.flatMap(sentence -> RuleText.sentence(sentence.span(), texts.problems()))
        .map(
            sentence ->
                new RuleDraft(
                    id.map(Scalar::value).orElse(name),
                    id.or(() -> text).orElseThrow().span(),
                    sentence,
                    why,
                    instruction,
                    source,
                    confirm,
                    stagesOnly,
                    then));
  }

  private Citation sourceWithNote(Keys keys) {
    return withNote(texts.source(keys.text("source")), Texts.string(keys.text("note")));
  }

  /** A source with what the file remarks on it. */
  static Citation withNote(Citation source, String note) {
    return note.isEmpty() ? source : new Citation(source.key(), source.text() + " (" + note + ")");
  }
}
