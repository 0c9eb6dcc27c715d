package org.gradus.rule.random;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Whatever is given as a rule, it is taken or refused. A build runs the seeds and a fixed number of
 * changed seeds; {@code JAZZER_FUZZ=1} searches on from the seeds, led by what the code covers.
 */
class RuleFuzzTest {

  private static final List<String> SEEDS = read();

  private static List<String> read() {
    try (InputStream stream = RuleFuzzTest.class.getResourceAsStream("rule-texts.txt");
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(Objects.requireNonNull(stream), UTF_8))) {
      return reader.lines().map(line -> line.replace(" | ", "\f")).toList();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  static Stream<byte[]> seeds() {
    return SEEDS.stream().map(seed -> seed.getBytes(UTF_8));
  }

  @MethodSource("seeds")
  @FuzzTest(maxDuration = "10m")
  void anyBytesAreTakenOrRefused(byte[] bytes) {
    Gauntlet.run(new String(bytes, UTF_8));
  }

  @Provide
  Arbitrary<byte[]> changed() {
    return Arbitraries.randomValue(
        random -> changed(SEEDS.get(random.nextInt(SEEDS.size())).getBytes(UTF_8), random));
  }

  @Property(tries = 5_000)
  void changedSeedsAreTakenOrRefused(@ForAll("changed") byte[] bytes) {
    Gauntlet.run(new String(bytes, UTF_8));
  }

  // Cuts, copies and bytes that do not belong: what a fuzzer does, without looking.
  private static byte[] changed(byte[] seed, Random random) {
    StringBuilder bytes =
        new StringBuilder(new String(seed, java.nio.charset.StandardCharsets.ISO_8859_1));
    for (int changes = 1 + random.nextInt(4); changes > 0 && bytes.length() > 0; changes--) {
      int from = random.nextInt(bytes.length());
      int to = Math.min(bytes.length(), from + 1 + random.nextInt(12));
      switch (random.nextInt(4)) {
        case 0 -> bytes.delete(from, to);
        case 1 -> bytes.insert(random.nextInt(bytes.length()), bytes.substring(from, to));
        case 2 -> bytes.setCharAt(from, (char) random.nextInt(256));
        default -> {
          String other = SEEDS.get(random.nextInt(SEEDS.size()));
          bytes.insert(from, other, random.nextInt(other.length()), other.length());
        }
      }
    }
    return bytes.toString().getBytes(java.nio.charset.StandardCharsets.ISO_8859_1);
  }
}
