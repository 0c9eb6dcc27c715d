@NullMarked
package org.gradus.examples.wholetest;

import org.jspecify.annotations.NullMarked;
