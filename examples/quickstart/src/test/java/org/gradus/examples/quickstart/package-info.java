@NullMarked
package org.gradus.examples.quickstart;

import org.jspecify.annotations.NullMarked;
