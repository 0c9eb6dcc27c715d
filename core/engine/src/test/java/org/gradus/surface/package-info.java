/** What the modules of the engine show to hosts. */
@NullMarked
package org.gradus.surface;

import org.jspecify.annotations.NullMarked;
