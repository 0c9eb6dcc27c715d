/** Exchange with devices and record systems: bytes, tables and bundles in, the same out. */
module org.gradus.exchange {
  requires static org.jspecify;
  requires transitive org.gradus.core;
  requires org.apache.commons.csv;

  exports org.gradus.exchange.device;
  exports org.gradus.exchange.fhir;
  exports org.gradus.exchange.table;
}
