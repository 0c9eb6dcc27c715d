package org.gradus.report;

import java.util.List;

/**
 * A part of a report with a title.
 *
 * @param title its title
 * @param place where it stands
 * @param blocks what stands in it
 */
record Section(String title, Place place, List<Block> blocks) {

  /** Where a section stands. */
  enum Place {
    /** On the first page, which is signed. */
    FIRST_PAGE,
    /** Behind it, for those who want to know how it came about. */
    DETAILS
  }

  Section {
    blocks = List.copyOf(blocks);
  }

  static Section first(String title, List<Block> blocks) {
    return new Section(title, Place.FIRST_PAGE, blocks);
  }

  static Section details(String title, List<Block> blocks) {
    return new Section(title, Place.DETAILS, blocks);
  }
}
