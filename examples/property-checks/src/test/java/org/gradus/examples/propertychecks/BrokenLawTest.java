package org.gradus.examples.propertychecks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import net.jqwik.api.Example;
import net.jqwik.api.RandomGenerator;
import net.jqwik.api.Shrinkable;
import org.gradus.bundled.Bundled;
import org.gradus.protocol.Protocol;
import org.gradus.session.Loading;
import org.gradus.session.Verdict;
import org.gradus.testkit.Any;
import org.gradus.testkit.Law;
import org.gradus.testkit.LawBroken;
import org.gradus.testkit.Laws;
import org.gradus.testkit.TestScript;

/** What a law that does not hold looks like; README.md shows it. */
class BrokenLawTest {

  private static final Protocol STEPS =
      Bundled.library().and(Path.of(".")).protocol("low-bench-steps");

  private static final String LAST =
      "ADVANCE to (brisk|fast) at 20 cm, 2[0-9.]+ cycles/min"
          + " \\(next: There is room for a faster rhythm.\\)";

  // Wrong: the rhythm chosen may be 20 cycles/min, and brisk is faster by 4.
  private static final Law SLOW =
      Law.always(
          "slow",
          "Nobody is told to step faster than 22 cycles/min.",
          moment -> moment.answer().filter(now -> isFast(now.verdict())).isEmpty());

  private static boolean isFast(Verdict verdict) {
    return verdict instanceof Verdict.Advance advance
        && advance.loads().stream()
            .filter(load -> load.name().equals("step_rate"))
            .map(Loading::value)
            .anyMatch(rhythm -> rhythm.base() > 22);
  }

  // As jqwik looks for a failure, and makes it smaller.
  private static TestScript smallestFailure() {
    RandomGenerator<TestScript> tests = Any.tests(STEPS).generator(1000);
    Random random = new Random(5);
    Optional<Shrinkable<TestScript>> found =
        Stream.generate(() -> tests.next(random))
            .limit(500)
            .filter(BrokenLawTest::fails)
            .findFirst();
    Shrinkable<TestScript> smallest = found.orElseThrow();
    while (found.isPresent()) {
      smallest = found.get();
      found = smallest.shrink().filter(BrokenLawTest::fails).findFirst();
    }
    return smallest.value();
  }

  private static boolean fails(Shrinkable<TestScript> test) {
    try {
      SLOW.check(test.value());
      return false;
    } catch (LawBroken broken) {
      return true;
    }
  }

  @Example
  void aBrokenLawTellsItsStory() throws IOException {
    TestScript test = smallestFailure();
    LawBroken broken = catchThrowableOfType(LawBroken.class, () -> SLOW.check(test));
    String message = String.valueOf(broken.getMessage());
    assertThat(message.lines().count()).isLessThan(20);
    String head = message.substring(0, message.indexOf("in:"));
    assertThat(readme()).contains(head);
    // The steps between are those of one seed.
    assertThat(message).containsPattern(LAST);
    assertThat(readme()).containsPattern(LAST);
  }

  @Example
  void theLawsAreThoseOfTheKit() throws IOException {
    String table =
        Laws.all().list().stream()
            .map(law -> "| `" + law.name() + "` | " + law.says() + " |\n")
            .collect(Collectors.joining());
    assertThat(readme()).contains("|---|---|\n" + table + "\n");
  }

  private static String readme() throws IOException {
    return Files.readString(Path.of("README.md"));
  }
}
