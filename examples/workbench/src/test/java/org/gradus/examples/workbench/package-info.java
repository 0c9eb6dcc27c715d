/** Tests of the workbench from outside: each starts it as a process of its own. */
@NullMarked
package org.gradus.examples.workbench;

import org.jspecify.annotations.NullMarked;
