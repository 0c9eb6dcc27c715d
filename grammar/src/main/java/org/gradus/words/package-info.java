/**
 * What is said to people, apart from the language it is said in: messages with typed arguments, and
 * the languages they can be put into.
 *
 * <pre>{@code
 * Language spanish = Language.of(Locale.forLanguageTag("es"));
 * spanish.say(refused.problem());
 * }</pre>
 *
 * <p>English, Spanish and German are there. A message prints itself in English.
 */
@NullMarked
package org.gradus.words;

import org.jspecify.annotations.NullMarked;
