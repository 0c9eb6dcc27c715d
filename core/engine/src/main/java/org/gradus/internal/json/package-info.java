/**
 * JSON from elsewhere, for records and for exchange with other systems. Open to those two only;
 * what hosts may use is {@link org.gradus.history.Json}.
 */
@NullMarked
package org.gradus.internal.json;

import org.jspecify.annotations.NullMarked;
