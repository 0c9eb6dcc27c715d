/** Live tests by invented protocols. */
@NullMarked
package org.gradus.session;

import org.jspecify.annotations.NullMarked;
