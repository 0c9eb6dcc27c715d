package org.gradus.bundled;

import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * A protocol of a scientist's own, {@code invented-walk.yaml} among the test resources, which
 * includes the bundled sets; a test writes its own rules into it.
 */
final class InventedWalk {

  private static final String NAME = "invented-walk.yaml";

  private String text = read();

  private static String read() {
    try (InputStream file = InventedWalk.class.getResourceAsStream(NAME)) {
      return new String(file.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }

  /** With a part of its text replaced, which must be there. */
  InventedWalk with(String part, String by) {
    if (!text.contains(part)) {
      throw new IllegalArgumentException("not in the file: " + part);
    }
    text = text.replace(part, by);
    return this;
  }

  /** With a rule that applies at any time. */
  InventedWalk anyTime(String rule) {
    return with("any_time:\n", "any_time:\n  - " + rule + "\n");
  }

  /** With other rules at the end of a stage. */
  InventedWalk stageEnd(String... rules) {
    int from = text.indexOf("stage_end:\n") + "stage_end:\n".length();
    int to = text.indexOf("\nrecovery:");
    text = text.substring(0, from) + lines(rules) + text.substring(to);
    return this;
  }

  /** With other rules of recovery. */
  InventedWalk recovery(String... rules) {
    int from = text.indexOf("  rules:\n", text.indexOf("\nrecovery:")) + "  rules:\n".length();
    int to = text.indexOf("  at_most:", from);
    text = text.substring(0, from) + lines(rules).replace("  - ", "    - ") + text.substring(to);
    return this;
  }

  private static String lines(String... rules) {
    return List.of(rules).stream().map("  - %s\n"::formatted).collect(Collectors.joining());
  }

  Protocol protocol() {
    List<SourceFile> files = new ArrayList<>(Bundled.files());
    files.add(SourceFile.of(NAME, text));
    return Library.of(files).protocol("invented-walk");
  }

  /** What is wrong with the file, as code, text at fault and message. */
  List<String> faults() {
    try {
      protocol();
      return List.of();
    } catch (FileRefused refused) {
      return refused.diagnostics().stream().map(InventedWalk::fault).toList();
    }
  }

  private static String fault(Diagnostic diagnostic) {
    return diagnostic.code() + " \"" + diagnostic.where().text() + "\" " + diagnostic.message();
  }

  /** A test whose first stage began at 0:00, of a man of 40 years. */
  Session begun() {
    Person person =
        Person.builder()
            .age(40)
            .sex(Person.Sex.MALE)
            .mass(Quantity.of(70, Unit.KILOGRAM))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Session.open(protocol(), person);
    session.record(
        at("0:00"),
        resting(heartRate(65)),
        resting(pressure(120, 80)),
        answer("unwell_today", false),
        answer("recent_event", false));
    session.follow(session.decide(at("0:00")));
    return session;
  }
}
