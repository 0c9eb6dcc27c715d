/**
 * Random texts of the language with random readings, a deliberately simple second evaluator, and
 * the laws that every text has to obey.
 */
@NullMarked
package org.gradus.rule.random;

import org.jspecify.annotations.NullMarked;
