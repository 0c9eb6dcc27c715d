package org.gradus.library;

import java.util.List;
import java.util.Optional;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.MeasureLine;

/** A line of a schedule with the places of the names in it. */
record MeasureDraft(
    MeasureLine line, List<Scalar> read, Optional<Scalar> scale, Optional<Scalar> named) {}
