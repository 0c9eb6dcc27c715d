/**
 * The text of the rule language and its abstract syntax: immutable records that know their place.
 *
 * <p>{@link org.gradus.rule.syntax.RuleText} turns the characters of one YAML scalar into a tree.
 * The grammar is {@code Gradus.g4}; nothing outside this package sees the parser generator.
 */
@NullMarked
package org.gradus.rule.syntax;

import org.jspecify.annotations.NullMarked;
