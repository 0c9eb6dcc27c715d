/**
 * A second pair of eyes on a protocol that loads: findings beyond load errors, each with an example
 * of readings, and for every comparison in every rule the readings around it.
 *
 * <p>Where the abstract evaluator leaves something open, points are sampled. A finding then says on
 * how many; nothing here is a proof.
 */
@NullMarked
package org.gradus.review;

import org.jspecify.annotations.NullMarked;
