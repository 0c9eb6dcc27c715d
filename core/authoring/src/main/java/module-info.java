/** Tools for those who write protocols: the review, virtual people, and files of cases. */
module org.gradus.authoring {
  requires static org.jspecify;
  requires transitive org.gradus.core;

  exports org.gradus.cases;
  exports org.gradus.review;
  exports org.gradus.trial;
}
