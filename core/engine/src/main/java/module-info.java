/** The engine: protocols, live tests, records, capacity, training plans and reports. */
// The modules that are named here are built after this one.
@SuppressWarnings("module")
module org.gradus.core {
  requires static org.jspecify;
  requires transitive org.gradus.grammar;
  requires commons.math3;
  requires org.snakeyaml.engine;

  exports org.gradus.capacity;
  exports org.gradus.history;
  exports org.gradus.internal.json to
      org.gradus.exchange;
  exports org.gradus.internal.reach to
      org.gradus.authoring;
  exports org.gradus.knowledge;
  exports org.gradus.library;
  exports org.gradus.protocol;
  exports org.gradus.report;
  exports org.gradus.session;
  exports org.gradus.training;
}
