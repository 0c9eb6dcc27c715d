/**
 * The immutable model of a test protocol: its stages, its schedule of readings, its rules and how
 * its result is worked out. Protocols are read from files by {@code org.gradus.library} and carried
 * out by {@code org.gradus.session}.
 */
@NullMarked
package org.gradus.protocol;

import org.jspecify.annotations.NullMarked;
