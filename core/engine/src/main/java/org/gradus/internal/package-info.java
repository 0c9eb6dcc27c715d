/**
 * What packages of the engine need of each other and hosts must not use. The package is exported to
 * nobody but the modules of Gradus.
 */
@NullMarked
package org.gradus.internal;

import org.jspecify.annotations.NullMarked;
