/**
 * Evaluation of checked rules over a frame of slots, with three values.
 *
 * <p>In the normal pass an unknown number is NaN and a truth is one byte, so that nothing is boxed
 * and nothing allocated. Why something is unknown, and what a rule's text looks like with its
 * numbers filled in, is found by running the same plan again part by part, only when somebody asks.
 */
@NullMarked
package org.gradus.rule.plan;

import org.jspecify.annotations.NullMarked;
