/**
 * Measures how fast the rules of a protocol are evaluated, beside hand-written code and
 * general-purpose expression languages, and what loading, starting, deciding and keeping a session
 * cost.
 */
@NullMarked
package org.gradus.examples.benchmarks;

import org.jspecify.annotations.NullMarked;
