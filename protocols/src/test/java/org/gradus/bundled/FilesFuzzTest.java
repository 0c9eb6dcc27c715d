package org.gradus.bundled;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.ByteArrayInputStream;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Whatever bytes are given as files, they load or are refused with places inside them; and what
 * loads can be played. The files of one library are parted by form feeds.
 */
class FilesFuzzTest {

  private static final String PARTED = "\f";
  private static final List<SourceFile> BUNDLED = Parts.of("graded-walk-standard");

  /** The files of the standard walk together, and each without the others. */
  static Stream<byte[]> seeds() {
    String all = BUNDLED.stream().map(SourceFile::text).collect(Collectors.joining(PARTED));
    return Stream.concat(Stream.of(all), BUNDLED.stream().map(SourceFile::text))
        .map(text -> text.getBytes(UTF_8));
  }

  @MethodSource("seeds")
  @FuzzTest(maxDuration = "10m")
  void anyBytesLoadOrAreRefused(byte[] bytes) {
    load(bytes);
  }

  @Provide
  Arbitrary<byte[]> changed() {
    List<byte[]> seeds = seeds().toList();
    return Arbitraries.randomValue(
        random -> changed(seeds.get(random.nextBoolean() ? 0 : random.nextInt(8)), random));
  }

  @Property(tries = 800)
  void changedFilesLoadOrAreRefused(@ForAll("changed") byte[] bytes) {
    load(bytes);
  }

  @Property(tries = 3)
  void theBundledFilesLoad(@ForAll("whole") byte[] bytes) {
    assertThat(load(bytes)).isTrue();
  }

  @Provide
  Arbitrary<byte[]> whole() {
    return Arbitraries.just(seeds().findFirst().orElseThrow());
  }

  private static boolean load(byte[] bytes) {
    String[] texts = new String(bytes, ISO_8859_1).split(PARTED, 20);
    List<SourceFile> files = new ArrayList<>();
    try {
      for (int i = 0; i < texts.length; i++) {
        byte[] file = texts[i].getBytes(ISO_8859_1);
        files.add(Library.file("file-" + i + ".yaml", new ByteArrayInputStream(file)));
      }
      Library library = Library.of(files);
      library.protocols().forEach(id -> play(library.protocol(id), new Random(bytes.length)));
      return true;
    } catch (FileRefused refused) {
      assertThat(refused.diagnostics()).isNotEmpty().allSatisfy(FilesFuzzTest::isWellSaid);
      return false;
    }
  }

  private static void isWellSaid(Diagnostic problem) {
    for (Diagnostic.Label label : problem.labels()) {
      assertThat(label.where().start()).isBetween(0, label.where().end());
      assertThat(label.where().end()).isLessThanOrEqualTo(label.where().file().text().length());
    }
    assertThat(problem.toString()).startsWith("error[G");
  }

  // Whatever was changed, nothing but a refusal comes out of a test that is followed.
  private static void play(Protocol protocol, Random random) {
    Session session = Session.open(protocol, Walks.ines());
    List<Integer> minutes = IntStream.rangeClosed(0, 30).boxed().toList();
    for (int minute : minutes) {
      Duration now = Duration.ofMinutes(minute);
      attempt(() -> session.record(now, Readings.heartRate(100 + random.nextInt(60))));
      attempt(() -> session.follow(session.decide(now)));
    }
    attempt(() -> assertThat(Capacity.of(session.outcome()).headline()).isNotNull());
  }

  private static void attempt(Runnable step) {
    try {
      step.run();
    } catch (GradusException refused) {
      assertThat(refused.getMessage()).isNotEmpty();
    }
  }

  private static byte[] changed(byte[] seed, Random random) {
    StringBuilder bytes = new StringBuilder(new String(seed, ISO_8859_1));
    for (int changes = 1 + random.nextInt(3); changes > 0 && bytes.length() > 0; changes--) {
      int from = random.nextInt(bytes.length());
      int to = Math.min(bytes.length(), from + 1 + random.nextInt(60));
      switch (random.nextInt(5)) {
        case 0 -> bytes.delete(from, to);
        case 1 -> bytes.insert(random.nextInt(bytes.length()), bytes.substring(from, to));
        case 2 -> bytes.setCharAt(from, (char) random.nextInt(256));
        case 3 -> digit(bytes, from, random);
        default -> {
          int line = bytes.indexOf("\n", from) + 1;
          bytes.delete(line, Math.max(line, bytes.indexOf("\n", line) + 1));
        }
      }
    }
    return bytes.toString().getBytes(ISO_8859_1);
  }

  // Another figure keeps a file sound more often than any other change.
  private static void digit(StringBuilder bytes, int from, Random random) {
    for (int i = from; i < bytes.length(); i++) {
      if (Character.isDigit(bytes.charAt(i))) {
        bytes.setCharAt(i, (char) ('0' + random.nextInt(10)));
        return;
      }
    }
  }
}
