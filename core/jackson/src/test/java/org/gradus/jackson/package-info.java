@NullMarked
package org.gradus.jackson;

import org.jspecify.annotations.NullMarked;
