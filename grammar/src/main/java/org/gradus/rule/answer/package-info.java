/**
 * What a rule answers when it is evaluated: whether it holds, what is missing for an answer, and
 * its text with the values it was evaluated on.
 */
@NullMarked
package org.gradus.rule.answer;

import org.jspecify.annotations.NullMarked;
