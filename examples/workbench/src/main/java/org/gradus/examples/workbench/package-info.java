/** A command line for people who write and try protocols. */
@NullMarked
package org.gradus.examples.workbench;

import org.jspecify.annotations.NullMarked;
