/**
 * What is wrong, where, and what to do about it: diagnostics of files and the family of exceptions.
 *
 * <p>A {@link org.gradus.diagnostic.Diagnostic} is a stable code with arguments and places; words
 * are made from it only when it is shown, so that a host can use its own.
 */
@NullMarked
package org.gradus.diagnostic;

import org.jspecify.annotations.NullMarked;
