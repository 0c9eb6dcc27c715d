/**
 * The knowledge that comes with Gradus: protocol, rule-set and equation files, each figure with its
 * source.
 */
@NullMarked
package org.gradus.bundled;

import org.jspecify.annotations.NullMarked;
