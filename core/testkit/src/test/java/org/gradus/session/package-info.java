/** Laws of live tests that look into the engine, on random tests of the kit. */
@NullMarked
package org.gradus.session;

import org.jspecify.annotations.NullMarked;
