/** Tests of what holds for all of exchange. */
@NullMarked
package org.gradus.exchange;

import org.jspecify.annotations.NullMarked;
