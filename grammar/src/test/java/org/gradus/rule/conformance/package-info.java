/**
 * The cases of the language: questions and answers in YAML files, for people who know exercise
 * tests and need not know Java. The files stand beside this package's classes as resources; {@code
 * literals.yaml} explains their format.
 */
@NullMarked
package org.gradus.rule.conformance;

import org.jspecify.annotations.NullMarked;
