@NullMarked
package org.gradus.rule.check;

import org.jspecify.annotations.NullMarked;
