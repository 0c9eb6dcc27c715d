/**
 * Names and kinds: gives every name of a text a meaning and every part a type, or says what is
 * wrong.
 *
 * <p>The result stays beside the tree, in the side tables of {@link org.gradus.rule.check.Checked}.
 * What a rule needs to know while a test runs is a {@link org.gradus.rule.check.Demand}; each
 * distinct demand of a protocol has a fixed slot in its {@link org.gradus.rule.check.Layout}.
 */
@NullMarked
package org.gradus.rule.check;

import org.jspecify.annotations.NullMarked;
