package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.ProtocolRule.Then;
import org.gradus.protocol.Suspicion;
import org.gradus.protocol.Suspicion.Look;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.RuleText;
import org.gradus.rule.syntax.Sentence;

/** Reads lists of rules. */
final class RuleReader {

  private final ScalarParser texts;
  private final String prefix;

  /** A reader that begins the ids of rules without one with a prefix: those of sets must differ. */
  RuleReader(ScalarParser texts, String prefix) {
    this.texts = texts;
    this.prefix = prefix;
  }

  /** The rules of a list; a rule may be a bare sentence. */
  List<RuleDraft> rules(List<YamlNode> items, String group) {
    List<RuleDraft> rules = new ArrayList<>();
    for (YamlNode item : items) {
      String name = prefix + group + "-" + (rules.size() + 1);
      if (item instanceof Scalar sentence && !sentence.value().isBlank()) {
        rules.add(bare(name, sentence));
      } else {
        rules.add(
            Keys.of(item, "a rule", texts.problems())
                .map(keys -> rule(keys, name, group))
                .orElseGet(() -> lost(name, item)));
      }
    }
    return rules;
  }

  /** The rule that the next stage begins, which no file has to write. */
  RuleDraft goOn(String id, Span where) {
    Optional<Sentence> sentence =
        RuleText.sentence(Span.all(where.file().name(), "advance"), new Problems());
    return new RuleDraft(
        prefix + id,
        where,
        sentence,
        "",
        "",
        Citation.NONE,
        Optional.empty(),
        false,
        Then.REST,
        true,
        Optional.empty());
  }

  private Optional<Sentence> sentence(Scalar text) {
    return RuleText.sentence(text.span(), texts.problems());
  }

  private RuleDraft bare(String name, Scalar text) {
    return new RuleDraft(
        name,
        text.span(),
        sentence(text),
        "",
        "",
        Citation.NONE,
        Optional.empty(),
        false,
        Then.REST,
        true,
        Optional.empty());
  }

  private static RuleDraft lost(String name, YamlNode item) {
    return new RuleDraft(
        name,
        item.span(),
        Optional.empty(),
        "",
        "",
        Citation.NONE,
        Optional.empty(),
        false,
        Then.REST,
        true,
        Optional.empty());
  }

  private RuleDraft rule(Keys keys, String name, String group) {
    Optional<Scalar> text = keys.needText("rule");
    Optional<Scalar> id = keys.text("id").filter(texts::isRuleId);
    String why = ScalarParser.string(keys.text("why"));
    String instruction = ScalarParser.string(keys.text("do"));
    Citation source = texts.source(keys);
    Optional<Duration> confirm = keys.text("confirm").flatMap(texts::stretch);
    boolean stagesOnly =
        keys.text("during")
            .flatMap(word -> texts.word(word, List.of("stages"), w -> w))
            .isPresent();
    Then then =
        keys.text("then").flatMap(word -> texts.constant(word, Then.class)).orElse(Then.REST);
    boolean alarming = texts.yes(keys.text("alarming"), true);
    Optional<Suspicion> suspicion = suspicion(keys, group);
    keys.done();
    Optional<Sentence> sentence = text.flatMap(this::sentence);
    sentence.ifPresent(read -> idle(keys, read.action(), group));
    return new RuleDraft(
        id.map(Scalar::value).orElse(name),
        id.or(() -> text).map(Scalar::span).orElse(keys.start()),
        sentence,
        why,
        instruction,
        source,
        confirm,
        stagesOnly,
        then,
        alarming,
        suspicion);
  }

  private Optional<Suspicion> suspicion(Keys keys, String group) {
    // One without the other says half of what a tester has to know.
    if (!group.equals("result") || !(keys.has("suspect") || keys.has("look"))) {
      return Optional.empty();
    }
    Optional<Scalar> ingredient = keys.needText("suspect");
    Optional<Look> look = keys.needText("look").flatMap(word -> texts.constant(word, Look.class));
    return ingredient.flatMap(
        suspect -> look.map(where -> new Suspicion(suspect.value().strip(), where)));
  }

  // A key that changes nothing would make a file say what the test does not do.
  private static void idle(Keys keys, Action action, String group) {
    boolean stops = action.kind() == Action.Kind.STOP;
    boolean ends = stops || action.kind() == Action.Kind.FINISH;
    boolean watched = group.equals("any_time") || group.equals("recovery");
    String kind = "a rule with " + action.word() + " in " + group;
    if (!stops) {
      keys.idle("then", kind, "only a stop has a then");
      keys.idle("alarming", kind, "only a stop can be alarming");
    }
    if (!ends || !watched) {
      keys.idle("confirm", kind, "only a stop or finish of any_time waits for a second reading");
    }
    if (!group.equals("any_time")) {
      keys.idle("during", kind, "rules of other groups are looked at in one phase only");
    }
  }
}
