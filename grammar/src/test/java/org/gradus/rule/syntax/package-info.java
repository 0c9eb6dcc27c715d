@NullMarked
package org.gradus.rule.syntax;

import org.jspecify.annotations.NullMarked;
