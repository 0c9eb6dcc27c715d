package org.gradus.cases;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.gradus.cases.CaseStep.Action;
import org.gradus.cases.CaseStep.Answer;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.library.Keys;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.syntax.RuleText;
import org.gradus.session.Times;
import org.gradus.session.Verdict;
import org.gradus.unit.Kind;

/** Reads what happens in a case. */
final class StepReader {

  private static final Pattern FROM_A_STAGE =
      Pattern.compile("([A-Za-z][A-Za-z0-9_]*)\\s*\\+\\s*(\\S+)");

  private static final List<String> VERDICTS =
      Stream.of(Verdict.Kind.values()).map(kind -> kind.name().toLowerCase(Locale.ROOT)).toList();

  private final Problems problems;

  StepReader(Problems problems) {
    this.problems = problems;
  }

  /** A step; nothing when it has no time, which is then noted. */
  Optional<CaseStep> step(Keys keys) {
    Optional<CaseTime> at = keys.needText("at").flatMap(this::moment);
    String name = keys.text("id").map(Scalar::value).orElse("");
    boolean instead = keys.text("instead").map(this::yes).orElse(false);
    Optional<Scalar> asked = keys.text("decide");
    Optional<CaseTime> until = keys.text("until").flatMap(this::moment);
    Optional<String> to = keys.text("to").map(Scalar::value);
    Optional<Scalar> then = keys.text("then").or(() -> asked);
    then.ifPresent(this::verdict);
    Answer answer =
        new Answer(
            then.map(Scalar::value),
            keys.has("override") ? Optional.empty() : to,
            keys.has("override") ? Optional.empty() : until,
            shows(keys),
            keys.text("rule").map(Scalar::value),
            words(keys, "rules"),
            words(keys, "offers"),
            words(keys, "asks"),
            words(keys, "cautions"),
            words(keys, "unchecked"),
            keys.text("firm").map(this::yes),
            keys.text("refused").map(Scalar::value));
    Action action = action(keys, to.orElse(""), until);
    keys.done();
    return at.map(when -> new CaseStep(name, when, action, instead, answer));
  }

  // The load that must be shown, or the word none where there must not be any.
  private static Optional<Map<String, String>> shows(Keys keys) {
    if (keys.peek("shows").filter("none"::equals).isPresent()) {
      keys.take("shows");
      return Optional.of(Map.of());
    }
    return keys.has("shows") ? Optional.of(values(keys.entries("shows"), keys)) : Optional.empty();
  }

  private Action action(Keys keys, String to, Optional<CaseTime> until) {
    Optional<CaseTime> taken = keys.text("taken").flatMap(this::moment);
    if (keys.has("sign")) {
      OptionalInt grade =
          keys.text("grade").map(this::whole).map(OptionalInt::of).orElse(OptionalInt.empty());
      return new Action.Report(word(keys, "sign"), grade);
    } else if (keys.has("withdraw")) {
      return new Action.Withdraw(word(keys, "withdraw"));
    } else if (keys.has("load")) {
      return new Action.Load(values(keys.entries("load"), keys));
    } else if (keys.has("done")) {
      onlyYes(keys, "done");
      return new Action.Done(taken);
    } else if (keys.has("beats")) {
      int beats = keys.text("beats").map(this::whole).orElse(0);
      Duration over = keys.needText("over").flatMap(this::time).orElse(Duration.ofSeconds(15));
      return new Action.Count(beats, over, taken);
    } else if (keys.has("amend")) {
      return new Action.Amend(word(keys, "amend"), values(keys.rest(), keys));
    } else if (keys.has("reject")) {
      return new Action.Reject(word(keys, "reject"), word(keys, "of"));
    } else if (keys.has("follow")) {
      String what = word(keys, "follow");
      return new Action.Follow(what.equals("yes") ? "" : what);
    } else if (keys.has("override")) {
      Optional<Scalar> verdict = keys.text("override");
      verdict.ifPresent(this::verdict);
      return new Action.Overrule(verdict.map(Scalar::value).orElse(""), to, until);
    } else if (keys.has("abandon")) {
      onlyYes(keys, "abandon");
      return new Action.Abandon();
    }
    Map<String, String> readings = values(keys.rest(), keys);
    return readings.isEmpty() ? new Action.Ask() : new Action.Tell(readings, taken);
  }

  private String word(Keys keys, String key) {
    return keys.needText(key).map(Scalar::value).orElse("");
  }

  private static Optional<List<String>> words(Keys keys, String key) {
    return keys.has(key)
        ? Optional.of(keys.texts(key).stream().map(Scalar::value).toList())
        : Optional.empty();
  }

  /** Entries as names with texts; what is no text is noted. */
  static Map<String, String> values(List<Entry> entries, Keys keys) {
    Map<String, String> values = new LinkedHashMap<>();
    for (Entry entry : entries) {
      keys.scalar(entry.value(), entry.key().value())
          .ifPresent(text -> values.put(entry.key().value(), text.value().strip()));
    }
    return values;
  }

  private Optional<CaseTime> moment(Scalar text) {
    Matcher from = FROM_A_STAGE.matcher(text.value().strip());
    String clock = from.matches() ? from.group(2) : text.value().strip();
    try {
      return Optional.of(
          new CaseTime(
              from.matches() ? Optional.of(from.group(1)) : Optional.empty(), Times.at(clock)));
    } catch (ValueRefused e) {
      notA(text, "a time", "write 3:00, or walk_2 + 1:30");
      return Optional.empty();
    }
  }

  private Optional<Duration> time(Scalar text) {
    return RuleText.quantity(text.span(), problems)
        .filter(quantity -> quantity.kind() == Kind.TIME)
        .map(quantity -> Duration.ofMillis(Math.round(quantity.base() * 1000)));
  }

  private int whole(Scalar text) {
    if (text.value().matches("[0-9]{1,4}")) {
      return Integer.parseInt(text.value());
    }
    notA(text, "a whole number", "write digits only");
    return 0;
  }

  private boolean yes(Scalar text) {
    boolean yes = List.of("yes", "true").contains(text.value());
    if (!yes && !List.of("no", "false").contains(text.value())) {
      notA(text, "yes or no", "write yes or no");
    }
    return yes;
  }

  private void onlyYes(Keys keys, String key) {
    keys.text(key)
        .filter(text -> !yes(text))
        .ifPresent(text -> notA(text, "yes", "leave it out when it does not happen"));
  }

  private void verdict(Scalar word) {
    if (!VERDICTS.contains(word.value())) {
      notA(
          word,
          "a verdict",
          problems.help(word.value(), VERDICTS, "these are " + String.join(", ", VERDICTS)));
    }
  }

  private void notA(Scalar text, String wanted, String help) {
    problems.add(text.span(), Code.G305, text.value(), wanted, help);
  }
}
