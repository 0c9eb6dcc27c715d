package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.gradus.bundled.Slips.Slip;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.review.Review;
import org.junit.jupiter.api.Test;

/**
 * A slip in a bundled file is a load error, an item without a source, a failing case or a finding
 * of the review. Sets of rules about results are left to PlausibilityTest. Those that are not are
 * printed, and their kinds are explained in SLIPS.md.
 */
class SlipsTest {

  private static final int OF_A_PROTOCOL = 22;
  private static final int OF_A_SET = 8;
  private static final double CAUGHT = 0.96;

  private static final Library LIBRARY = Bundled.library();

  /** The bundled files without the file of each protocol. */
  private static final Map<String, Library> OTHERS =
      LIBRARY.protocols().stream()
          .collect(Collectors.toMap(id -> id, id -> Library.of(without(id + ".yaml"))));

  /** A slip, and the protocol with which it is looked for. */
  private record Hunt(Slip slip, String protocol) {}

  private static List<Hunt> hunts() {
    List<Hunt> hunts = new ArrayList<>();
    for (SourceFile file : Bundled.files()) {
      String id = file.name().replace(".yaml", "");
      if (LIBRARY.protocols().contains(id)) {
        Slips.of(file, OF_A_PROTOCOL).forEach(slip -> hunts.add(new Hunt(slip, id)));
      } else if (file.text().contains("\nkind: rules\n") && !id.startsWith("plausible-")) {
        user(file.name())
            .forEach(
                protocol ->
                    Slips.of(file, OF_A_SET).forEach(slip -> hunts.add(new Hunt(slip, protocol))));
      }
    }
    return hunts;
  }

  private static Stream<String> user(String set) {
    return LIBRARY.protocols().stream()
        .filter(id -> Parts.of(id).stream().anyMatch(file -> file.name().equals(set)))
        .limit(1);
  }

  // Else everything would pass for caught.
  @Test
  void withoutASlipNothingIsCaught() {
    for (String protocol : LIBRARY.protocols()) {
      SourceFile asItIs = Parts.named(protocol + ".yaml");
      Slip none = new Slip(asItIs, "none", "", "");
      assertThat(caughtBy(new Hunt(none, protocol))).as(protocol).isEqualTo("nothing");
    }
  }

  @Test
  void nearlyEverySlipIsCaught() {
    List<Hunt> hunts = hunts();
    assertThat(hunts).hasSizeGreaterThanOrEqualTo(500);
    List<String> found = hunts.parallelStream().map(SlipsTest::caughtBy).toList();
    Map<String, Long> counts =
        found.stream()
            .collect(Collectors.groupingBy(way -> way, TreeMap::new, Collectors.counting()));
    System.out.println(hunts.size() + " slips: " + counts);
    for (int i = 0; i < hunts.size(); i++) {
      if (found.get(i).equals("nothing")) {
        System.out.println("  not caught: " + hunts.get(i).slip());
      }
    }
    int survivors = Collections.frequency(found, "nothing");
    assertThat(1 - survivors / (double) hunts.size()).isGreaterThanOrEqualTo(CAUGHT);
  }

  private static String caughtBy(Hunt hunt) {
    List<SourceFile> files = with(Parts.of(hunt.protocol()), hunt.slip().file());
    Library library;
    try {
      library = Library.of(files);
    } catch (FileRefused refused) {
      return "a load error";
    }
    if (!library.protocols().contains(hunt.protocol())) {
      return "a load error";
    }
    boolean sourced =
        SourcedItems.of(hunt.slip().file()).all().stream()
            .noneMatch(item -> item.sources().isEmpty());
    if (!sourced) {
      return "an item without a source";
    }
    if (!isAsWritten(library.protocol(hunt.protocol()))) {
      return "another prescription";
    }
    Library all;
    try {
      all = withAllOthers(hunt);
    } catch (FileRefused refused) {
      return "a load error";
    }
    // People of shared cases have facts that other protocols ask for: cases need all of them.
    if (!Playbook.of(all, hunt.protocol(), files).isAsSaid(all)) {
      return "a failing case";
    }
    return Review.of(library.protocol(hunt.protocol())).isClean() ? "nothing" : "a finding";
  }

  // What does not use the slipped file is not checked again, which takes far longer than all else.
  private static Library withAllOthers(Hunt hunt) {
    SourceFile slipped = hunt.slip().file();
    return slipped.name().equals(hunt.protocol() + ".yaml")
        ? Objects.requireNonNull(OTHERS.get(hunt.protocol())).and(List.of(slipped))
        : Library.of(with(Bundled.files(), slipped));
  }

  private static List<SourceFile> without(String name) {
    return Bundled.files().stream().filter(file -> !file.name().equals(name)).toList();
  }

  private static List<SourceFile> with(List<SourceFile> files, SourceFile slipped) {
    return files.stream().map(file -> file.name().equals(slipped.name()) ? slipped : file).toList();
  }

  private static boolean isAsWritten(Protocol protocol) {
    boolean looks =
        protocol.rules().result().stream()
            .anyMatch(rule -> rule.id().equals("high-for-age-and-sex"));
    return looks == !protocol.assessment().estimates().isEmpty()
        && PrescriptionsTest.areSettingsAsWritten(protocol)
        && Prescription.of(protocol).equals(PrescriptionsTest.written(protocol.id()));
  }
}
