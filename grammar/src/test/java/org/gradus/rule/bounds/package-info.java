@NullMarked
package org.gradus.rule.bounds;

import org.jspecify.annotations.NullMarked;
