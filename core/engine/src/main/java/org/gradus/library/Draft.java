package org.gradus.library;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.AuthorNotes;
import org.gradus.protocol.Brake;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Sign;
import org.gradus.protocol.Signal;
import org.gradus.protocol.Unmeasured;
import org.gradus.rule.check.Table;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Sentence;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;

/**
 * A rule set or a protocol as it was written: read, but with nothing resolved. Filled by its
 * readers and by {@link Includes}, and not changed after. It also knows what of it could not be
 * read, so that one slip gives one message.
 */
final class Draft {

  /** A named expression with its source. */
  record Define(Expression body, Citation source) {}

  /** A table with its source. */
  record Tabled(Table table, Citation source) {}

  /** A question as it was written. */
  record Ask(
      Type type,
      String prompt,
      Optional<QuantityRange> range,
      List<OfferDraft> options,
      Optional<Expression> fallback,
      Optional<Expression> unless,
      Citation source) {

    /** Every condition and value in it. */
    List<Expression> expressions() {
      List<Expression> all = new ArrayList<>();
      options.forEach(option -> option.when().ifPresent(all::add));
      fallback.ifPresent(all::add);
      unless.ifPresent(all::add);
      return all;
    }
  }

  /** A value that a question offers. */
  record OfferDraft(Quantity value, Optional<Expression> when, Citation source) {}

  /** An included set and the rules of it that are left out. */
  record Include(Span where, String id, List<Placed<String>> without) {}

  final Header header;

  /** Names that are declared, but wrongly. It has been said, so their uses are passed over. */
  final Set<String> faulty = new HashSet<>();

  /** Keys under which something could not be read, so that what is there is not all. */
  final Set<String> lost = new HashSet<>();

  /**
   * Whether a part is missing of which it is not known what is in it: a set that does not exist, a
   * misspelt key. What is not found may be there.
   */
  boolean torn;

  final List<Include> includes = new ArrayList<>();

  /** The files it was read from. */
  final Set<SourceFile> files = new LinkedHashSet<>();

  final List<Citation> sources = new ArrayList<>();
  final List<String> cautions = new ArrayList<>();

  final Map<String, Placed<Setting>> settings = new LinkedHashMap<>();

  /** Keys a file has once, and whose place is asked for later. */
  static final List<String> ONLY_ONCE = List.of("for", "recovery");

  final Map<String, Placed<Define>> defines = new LinkedHashMap<>();
  final Map<String, Placed<Ask>> questions = new LinkedHashMap<>();
  final Map<String, Placed<Sign>> signs = new LinkedHashMap<>();
  final Map<String, Placed<Signal>> signals = new LinkedHashMap<>();
  final Map<String, Placed<LoadRange>> loads = new LinkedHashMap<>();
  final Map<String, Placed<Scale>> scales = new LinkedHashMap<>();
  final Map<String, Placed<Tabled>> tables = new LinkedHashMap<>();

  final List<BaselineDraft> baselines = new ArrayList<>();
  final List<MeasureDraft> measure = new ArrayList<>();
  final List<CueDraft> cues = new ArrayList<>();
  final List<RuleDraft> before = new ArrayList<>();
  final List<RuleDraft> anyTime = new ArrayList<>();
  final List<RuleDraft> stageEnd = new ArrayList<>();
  final List<RuleDraft> result = new ArrayList<>();
  final List<StageDraft> stages = new ArrayList<>();
  final List<ChoiceLine> cost = new ArrayList<>();
  final List<ChoiceLine> maxHeartRate = new ArrayList<>();
  final List<EstimateDraft> estimates = new ArrayList<>();
  final List<EstimateDraft> results = new ArrayList<>();
  Optional<Scalar> headline = Optional.empty();
  final Map<String, Span> places = new LinkedHashMap<>();
  Optional<Eligibility> eligibility = Optional.empty();
  Optional<RecoveryDraft> recovery = Optional.empty();
  Optional<Unmeasured> unmeasured = Optional.empty();
  Optional<Brake> brake = Optional.empty();
  String ergometer = "";
  String purpose = "";

  final Map<String, Placed<AuthorNotes.Usual>> usual = new LinkedHashMap<>();
  final List<AuthorNotes.Replaced> replaced = new ArrayList<>();
  final List<AuthorNotes.Dropped> dropped = new ArrayList<>();
  final List<AuthorNotes.Acceptance> accepted = new ArrayList<>();

  Draft(Header header) {
    this.header = header;
    files.add(header.where().file());
  }

  /** Where a key stands that a file has once. */
  Span place(String key) {
    return places.getOrDefault(key, header.where());
  }

  /** Whether everything under some keys could be read. */
  boolean isWhole(String... keys) {
    return !torn && Stream.of(keys).noneMatch(lost::contains);
  }

  /** Whether all of it could be read. */
  boolean isWhole() {
    return !torn && lost.isEmpty();
  }

  /** All its lists of rules, with those of stages. */
  List<RuleDraft> rules() {
    List<RuleDraft> rules = new ArrayList<>(before);
    rules.addAll(anyTime);
    rules.addAll(stageEnd);
    stages.forEach(stage -> stage.ownRules().ifPresent(rules::addAll));
    recovery.ifPresent(after -> rules.addAll(after.rules()));
    rules.addAll(result);
    return rules;
  }

  /** Every condition and value in it. */
  List<Expression> expressions() {
    List<Expression> all = expressionsInUse();
    defines.values().forEach(define -> all.add(define.value().body()));
    return all;
  }

  /** Every condition and value in it but those of definitions, which may be used or not. */
  List<Expression> expressionsInUse() {
    List<Expression> all = new ArrayList<>();
    rules().forEach(rule -> rule.sentence().ifPresent(read -> collect(read, all)));
    questions.values().forEach(ask -> all.addAll(ask.value().expressions()));
    stages.forEach(stage -> all.addAll(stage.expressions()));
    recovery.ifPresent(after -> after.stages().forEach(stage -> all.addAll(stage.expressions())));
    cost.forEach(line -> line.when().ifPresent(all::add));
    maxHeartRate.forEach(line -> line.when().ifPresent(all::add));
    estimates.forEach(estimate -> all.addAll(estimate.expressions()));
    results.forEach(result -> all.addAll(result.expressions()));
    return all;
  }

  private static void collect(Sentence sentence, List<Expression> all) {
    sentence.when().ifPresent(all::add);
    Action action = sentence.action().meant();
    switch (action.kind()) {
      case HOLD -> all.add(((Action.Hold) action).longer());
      case CHANGE -> all.add(((Action.Change) action).by());
      case STOP, FINISH, ADVANCE, OFFER, CAUTION, DEFER, START_AT, END -> {
        // It has no figure.
      }
    }
  }
}
