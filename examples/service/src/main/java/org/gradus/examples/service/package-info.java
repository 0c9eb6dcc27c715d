/** A web service that keeps live tests in a database and survives being killed. */
@NullMarked
package org.gradus.examples.service;

import org.jspecify.annotations.NullMarked;
