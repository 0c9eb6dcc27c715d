package org.gradus.library;

import java.util.List;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Timing;

/**
 * A reminder as it was written.
 *
 * @param in the stages in which it is due, as they were written; none: all
 */
record CueDraft(String say, Timing timing, List<Scalar> in) {}
