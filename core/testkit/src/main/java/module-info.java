/** The kit for testers of protocols: arbitraries of jqwik, and the laws of a session. */
module org.gradus.testkit {
  requires static org.jspecify;
  requires transitive org.gradus.authoring;
  requires transitive net.jqwik.api;

  exports org.gradus.testkit;
}
