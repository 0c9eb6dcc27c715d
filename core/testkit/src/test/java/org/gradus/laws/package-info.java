/** The laws of a session, over protocols that are made up at random. */
@NullMarked
package org.gradus.laws;

import org.jspecify.annotations.NullMarked;
