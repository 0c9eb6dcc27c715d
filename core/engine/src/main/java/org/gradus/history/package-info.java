/**
 * Records of tests: what was told and what was answered, line by line, so that another professional
 * can audit it, run it again, and take it up again after a crash.
 *
 * <p>A record is JSON Lines, and each line is valid YAML 1.2 as well. All writing of files is done
 * by {@link org.gradus.history.Journal}; {@link org.gradus.history.Json} writes the text of a line.
 */
@NullMarked
package org.gradus.history;

import org.jspecify.annotations.NullMarked;
