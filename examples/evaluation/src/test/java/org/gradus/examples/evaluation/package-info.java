/** Tests of the evaluation. */
@NullMarked
package org.gradus.examples.evaluation;

import org.jspecify.annotations.NullMarked;
