package org.gradus.report;

import java.util.List;

/**
 * A part of a report with a title.
 *
 * @param title its title
 * @param blocks what stands in it
 */
record Section(String title, List<Block> blocks) {
  Section {
    blocks = List.copyOf(blocks);
  }
}
