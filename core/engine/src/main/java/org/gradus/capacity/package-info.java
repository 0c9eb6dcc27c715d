/**
 * What a test was given for: the aerobic capacity, worked out in every way its protocol declares,
 * each with the stages, figures and sources it rests on.
 */
@NullMarked
package org.gradus.capacity;

import org.jspecify.annotations.NullMarked;
