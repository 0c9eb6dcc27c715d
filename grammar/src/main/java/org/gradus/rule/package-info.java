/**
 * The rule language of graded exercise tests: a text goes in, a checked and planned {@link
 * org.gradus.rule.Rule} or {@link org.gradus.rule.Formula} comes out.
 *
 * <p>A rule is a sentence, an action and a condition:
 *
 * <pre>
 * finish when steady and heart_rate &gt;= lesser(finish_from, ceiling_rate - 10 bpm)
 * hold 1 min at most 2 times when not steady
 * advance
 * </pre>
 *
 * Conditions have three values. A missing reading makes a condition unknown, never false, and an
 * unknown says which reading would settle it and when.
 */
@NullMarked
package org.gradus.rule;

import org.jspecify.annotations.NullMarked;
