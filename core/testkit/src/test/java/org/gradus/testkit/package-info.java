/** Tests of the kit. */
@NullMarked
package org.gradus.testkit;

import org.jspecify.annotations.NullMarked;
