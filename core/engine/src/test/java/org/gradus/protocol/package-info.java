/** Tests of the model. */
@NullMarked
package org.gradus.protocol;

import org.jspecify.annotations.NullMarked;
