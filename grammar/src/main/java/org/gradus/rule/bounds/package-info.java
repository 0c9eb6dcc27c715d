/**
 * Abstract evaluation: what a rule could come to when its readings are only known to lie in a
 * range, or may be missing.
 *
 * <p>One evaluator serves three masters. With every scheduled reading present but free it proves
 * when a file is loaded that a list of rules always comes to a verdict; with each reading as wide
 * as its own resolution it tells at run time whether a decision is firm; and a review asks it for
 * overlaps. It may see an outcome that cannot happen; it never overlooks one that can.
 */
@NullMarked
package org.gradus.rule.bounds;

import org.jspecify.annotations.NullMarked;
