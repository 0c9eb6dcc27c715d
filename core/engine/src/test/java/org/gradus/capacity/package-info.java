/** Tests of the model. */
@NullMarked
package org.gradus.capacity;

import org.jspecify.annotations.NullMarked;
