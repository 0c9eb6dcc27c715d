/** A scripted test in which everything happens that can: told event by event, with the answers. */
@NullMarked
package org.gradus.examples.wholetest;

import org.jspecify.annotations.NullMarked;
