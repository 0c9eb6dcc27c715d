/** A live test in the browser: a small web application around a session and its journal. */
@NullMarked
package org.gradus.examples.console;

import org.jspecify.annotations.NullMarked;
