@NullMarked
package org.gradus.diagnostic;

import org.jspecify.annotations.NullMarked;
