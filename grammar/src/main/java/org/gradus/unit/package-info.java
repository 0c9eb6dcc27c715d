/**
 * Kinds, units and quantities of exercise testing, with exact conversion factors.
 *
 * <p>A value has a <em>kind</em> (heart rate, pressure, speed, ...). Kinds do not mix, even where
 * the physical dimension would allow it: beats per minute and pedal turns per minute are both
 * rates, and adding them is a mistake. That is why this is a table of kinds and not a library of
 * dimensions.
 */
@NullMarked
package org.gradus.unit;

import org.jspecify.annotations.NullMarked;
