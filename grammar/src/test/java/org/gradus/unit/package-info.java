@NullMarked
package org.gradus.unit;

import org.jspecify.annotations.NullMarked;
