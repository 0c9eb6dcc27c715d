/**
 * Plays a recorded test through Gradus and prints what it would have recommended, minute by minute.
 */
@NullMarked
package org.gradus.examples.quickstart;

import org.jspecify.annotations.NullMarked;
