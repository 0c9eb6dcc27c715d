/** Bundles checked by a validator of FHIR. */
@NullMarked
package org.gradus.exchange.validation;

import org.jspecify.annotations.NullMarked;
