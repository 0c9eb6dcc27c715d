/**
 * The report of a whole test, as plain text and as one HTML file: what was done and read, what was
 * decided and why, what came out, how sure that is, and how to train by it.
 */
@NullMarked
package org.gradus.report;

import org.jspecify.annotations.NullMarked;
