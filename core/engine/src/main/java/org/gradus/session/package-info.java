/**
 * A live test: readings, signs and answers go in, decisions come out.
 *
 * <p>{@link org.gradus.session.Session} is the way in. Behind it stands an immutable {@code
 * TestState}, everything told so far. {@code EventApplier} turns an event into the next state,
 * {@code FrameFiller} fills the frame that rules read, and {@code Judge} makes the decision.
 */
@NullMarked
package org.gradus.session;

import org.jspecify.annotations.NullMarked;
