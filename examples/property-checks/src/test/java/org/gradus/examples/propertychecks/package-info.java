/** Tests of a protocol of one's own with the kit for testers. */
@NullMarked
package org.gradus.examples.propertychecks;

import org.jspecify.annotations.NullMarked;
