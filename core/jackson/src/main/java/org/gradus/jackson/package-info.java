/**
 * For hosts that use Jackson 2: {@link org.gradus.jackson.GradusModule} lets an object mapper write
 * and read what {@link org.gradus.history.Json} does, in the same form, also inside classes of the
 * host.
 */
@NullMarked
package org.gradus.jackson;

import org.jspecify.annotations.NullMarked;
