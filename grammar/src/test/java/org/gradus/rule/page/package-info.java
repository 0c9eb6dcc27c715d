/** Runs the examples of LANGUAGE.md. */
@org.jspecify.annotations.NullMarked
package org.gradus.rule.page;
