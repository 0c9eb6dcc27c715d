/**
 * What is known beyond one protocol: sources, oxygen costs of loads, age-predicted maximal heart
 * rates. All of it is read from files; none of it stands in code.
 */
@NullMarked
package org.gradus.knowledge;

import org.jspecify.annotations.NullMarked;
