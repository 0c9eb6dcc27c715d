package org.gradus.library;

import org.gradus.diagnostic.Span;

/** Something with the place in a file where its name stands. */
record Placed<T>(Span where, T value) {}
