package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.gradus.library.Library;
import org.gradus.review.Review;
import org.junit.jupiter.api.Test;

/** A review finds nothing in the bundled protocols but what they accept with a reason. */
class ReviewOfBundledTest {

  @Test
  void theBundledProtocolsHaveNoFindingThatIsNotAccepted() {
    Library library = Bundled.library();
    List<String> open = new ArrayList<>();
    for (String id : library.protocols()) {
      Review.of(library.protocol(id)).findings().forEach(finding -> open.add(id + ": " + finding));
    }
    assertThat(open).isEmpty();
  }
}
