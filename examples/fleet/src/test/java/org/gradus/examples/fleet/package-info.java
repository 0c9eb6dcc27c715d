/** Very many live tests, and trials of very many virtual people, on Apache Flink. */
@NullMarked
package org.gradus.examples.fleet;

import org.jspecify.annotations.NullMarked;
