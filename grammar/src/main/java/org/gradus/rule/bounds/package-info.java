/**
 * What is known of values before they are read: that they lie in a range, are one of some options,
 * or may be missing.
 *
 * <p>A {@link org.gradus.rule.bounds.Box} holds a {@link org.gradus.rule.bounds.Cell} for each
 * slot; the nodes of {@code org.gradus.rule.plan} compute over it with {@link
 * org.gradus.rule.bounds.NumberRange} and {@link org.gradus.rule.bounds.Outcomes}. The result may
 * contain an outcome that cannot happen; it never misses one that can.
 */
@NullMarked
package org.gradus.rule.bounds;

import org.jspecify.annotations.NullMarked;
