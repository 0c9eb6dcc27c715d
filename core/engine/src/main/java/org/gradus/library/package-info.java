/**
 * Reads files into protocols. {@link org.gradus.library.Library} is the way in; the other classes
 * each know one part of the format. A file that loads cannot misbehave: what could is found here,
 * with its place and a remedy.
 */
@NullMarked
package org.gradus.library;

import org.jspecify.annotations.NullMarked;
