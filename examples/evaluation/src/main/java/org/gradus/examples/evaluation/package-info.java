/** Compares estimates with open measurements and writes the table of {@code core/ESTIMATES.md}. */
@NullMarked
package org.gradus.examples.evaluation;

import org.jspecify.annotations.NullMarked;
