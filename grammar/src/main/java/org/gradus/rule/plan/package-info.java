/**
 * Evaluation of checked rules: over a frame of slots with three values, and over a box of ranges.
 *
 * <p>The {@link org.gradus.rule.plan.NodeBuilder} turns a checked tree into nodes, one kind for
 * each operator. A {@link org.gradus.rule.plan.Node} holds all that its operator means: its value
 * on a {@link org.gradus.rule.plan.Frame}, what it can be anywhere in a {@link
 * org.gradus.rule.plan.Region}, which part of a box is left when its answer is known, and why it is
 * unknown.
 *
 * <p>On a frame an unknown number is NaN and a truth is one byte, so that nothing is boxed and
 * nothing allocated. The text of a rule with its numbers filled in is written by planning its parts
 * again, only when it is asked for.
 */
@NullMarked
package org.gradus.rule.plan;

import org.jspecify.annotations.NullMarked;
