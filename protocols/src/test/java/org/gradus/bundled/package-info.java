@NullMarked
package org.gradus.bundled;

import org.jspecify.annotations.NullMarked;
