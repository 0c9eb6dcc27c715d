package org.gradus.library;

import java.time.Duration;
import java.util.List;

/** What follows the exercise, as it was written. */
record RecoveryDraft(
    List<StageDraft> stages, List<MeasureDraft> measure, List<RuleDraft> rules, Duration atMost) {}
