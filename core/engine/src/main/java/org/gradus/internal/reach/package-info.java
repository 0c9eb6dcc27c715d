/**
 * Which values are possible at which moments of a test: the ranges on which the library proves what
 * it promises, and the review looks for what an author may not have meant.
 */
@NullMarked
package org.gradus.internal.reach;

import org.jspecify.annotations.NullMarked;
