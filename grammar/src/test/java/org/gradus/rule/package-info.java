@NullMarked
package org.gradus.rule;

import org.jspecify.annotations.NullMarked;
