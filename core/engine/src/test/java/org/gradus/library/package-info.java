/** Tests of reading files, on a small invented library. */
@NullMarked
package org.gradus.library;

import org.jspecify.annotations.NullMarked;
