package org.gradus.library;

import java.time.Duration;
import java.util.List;
import org.gradus.protocol.MeasureLine;

/** What follows the exercise, as it was written. */
record RecoveryDraft(
    List<StageDraft> stages,
    List<Placed<MeasureLine>> measure,
    List<RuleDraft> rules,
    Duration atMost) {}
