package org.gradus.internal;

/**
 * What the library shows when it makes something that hosts must not make for themselves, such as a
 * protocol that nobody has proved.
 */
public enum LibraryKey {
  /** The only one. */
  KEY
}
