/** A module of Jackson 2 that writes and reads the wire form of Gradus. */
module org.gradus.jackson {
  requires static org.jspecify;
  requires transitive org.gradus.core;
  requires com.fasterxml.jackson.core;
  requires transitive com.fasterxml.jackson.databind;

  exports org.gradus.jackson;

  provides com.fasterxml.jackson.databind.Module with
      org.gradus.jackson.GradusModule;
}
