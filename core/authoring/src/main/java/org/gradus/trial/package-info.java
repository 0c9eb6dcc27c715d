/**
 * Trials: virtual people take a test through the public session, as often as one likes, to see how
 * a protocol behaves before a real person stands on the ergometer.
 *
 * <p>What a virtual person is like stands in a file, each figure with its source. A trial is
 * seeded: the same people come out whether they are tested one after another or side by side.
 */
@NullMarked
package org.gradus.trial;

import org.jspecify.annotations.NullMarked;
