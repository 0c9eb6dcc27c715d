@NullMarked
package org.gradus.review;

import org.jspecify.annotations.NullMarked;
