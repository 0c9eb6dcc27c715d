/**
 * Random protocols and random tests by them, for laws that hold for every protocol and every order
 * of events.
 */
@NullMarked
package org.gradus.testkit;

import org.jspecify.annotations.NullMarked;
