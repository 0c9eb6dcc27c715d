/** A whole test with a simulated treadmill, strap and cuff: bytes in, bytes out. */
@NullMarked
package org.gradus.examples.devices;

import org.jspecify.annotations.NullMarked;
