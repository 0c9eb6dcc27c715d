package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Sign;
import org.gradus.protocol.Signal;
import org.gradus.protocol.Unmeasured;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText.QuantityRange;

/**
 * A rule set or a protocol as it was written: read, but with nothing resolved. Filled by its
 * readers and by {@link Includes}, and not changed after.
 */
final class Draft {

  /** A named expression with its source. */
  record Define(Expression body, Citation source) {}

  /** A question as it was written. */
  record Ask(
      Type type, String prompt, Optional<QuantityRange> range, Optional<Expression> unless) {}

  /** An included set and the rules of it that are left out. */
  record Include(Span where, String id, List<Placed<String>> without) {}

  final Header header;
  final List<Include> includes = new ArrayList<>();
  final List<Citation> sources = new ArrayList<>();
  final List<String> cautions = new ArrayList<>();

  final Map<String, Placed<Setting>> settings = new LinkedHashMap<>();
  final Map<String, Placed<Define>> defines = new LinkedHashMap<>();
  final Map<String, Placed<Ask>> questions = new LinkedHashMap<>();
  final Map<String, Placed<Sign>> signs = new LinkedHashMap<>();
  final Map<String, Placed<Signal>> signals = new LinkedHashMap<>();
  final Map<String, Placed<Scale>> scales = new LinkedHashMap<>();

  final List<BaselineLine> baselines = new ArrayList<>();
  final List<Placed<MeasureLine>> measure = new ArrayList<>();
  final List<RuleDraft> before = new ArrayList<>();
  final List<RuleDraft> anyTime = new ArrayList<>();
  final List<RuleDraft> stageEnd = new ArrayList<>();
  final List<RuleDraft> result = new ArrayList<>();
  final List<StageDraft> stages = new ArrayList<>();
  final List<ChoiceLine> cost = new ArrayList<>();
  final List<ChoiceLine> maxHeartRate = new ArrayList<>();
  final List<EstimateDraft> estimates = new ArrayList<>();
  Optional<Eligibility> eligibility = Optional.empty();
  Optional<RecoveryDraft> recovery = Optional.empty();
  Optional<Unmeasured> unmeasured = Optional.empty();
  String ergometer = "";
  String purpose = "";

  Draft(Header header) {
    this.header = header;
  }
}
