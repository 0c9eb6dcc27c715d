/**
 * How to train by a result: bands of intensity as heart rates, uptakes, ratings, energies and loads
 * of ergometers.
 */
@NullMarked
package org.gradus.training;

import org.jspecify.annotations.NullMarked;
