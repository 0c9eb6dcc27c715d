/** Tests of the reader of JSON. */
@NullMarked
package org.gradus.internal.json;

import org.jspecify.annotations.NullMarked;
