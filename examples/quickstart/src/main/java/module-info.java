/** A program that plays a recorded test; it shows what a host on the module path requires. */
module org.gradus.examples.quickstart {
  requires static org.jspecify;
  requires org.gradus.protocols;
  requires org.snakeyaml.engine;
}
