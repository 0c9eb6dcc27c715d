/** The protocols, rule sets, equations, norms and intensity bands that come with Gradus. */
module org.gradus.protocols {
  requires static org.jspecify;
  requires transitive org.gradus.core;

  exports org.gradus.bundled;
}
