/**
 * Cases: invented people, what happens in their tests, and what a protocol must answer. They are
 * written in YAML beside the protocols, so that who writes a protocol can say what it should do.
 * Running them gives failures and coverage as values; nothing is thrown for an answer that differs.
 */
@NullMarked
package org.gradus.cases;

import org.jspecify.annotations.NullMarked;
