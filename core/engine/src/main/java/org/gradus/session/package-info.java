/**
 * A live test: readings, signs and answers go in, decisions come out.
 *
 * <p>{@link org.gradus.session.Session} is the way in. Behind it stands an immutable {@code
 * Course}, everything told so far; {@code Intake} makes the next course out of an event, {@code
 * Sight} shows a course to the rules, and {@code Judge} reads the decision off it.
 */
@NullMarked
package org.gradus.session;

import org.jspecify.annotations.NullMarked;
