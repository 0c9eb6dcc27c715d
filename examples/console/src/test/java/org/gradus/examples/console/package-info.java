@NullMarked
package org.gradus.examples.console;

import org.jspecify.annotations.NullMarked;
