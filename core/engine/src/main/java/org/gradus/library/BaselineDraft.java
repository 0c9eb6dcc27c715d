package org.gradus.library;

import java.util.List;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.BaselineLine;

/** A line of what is read before the test, with the places of the names in it. */
record BaselineDraft(BaselineLine line, List<Scalar> read) {}
