package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.gradus.session.Times.at;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Ending;
import org.gradus.session.Loading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A folder may declare loads, ergometers and signals that no line of Java knows. */
class OwnEquipmentTest {

  private static final String BASIN =
      """
      format: 1
      kind: rules
      id: basin
      version: 1.0.0
      title: What a flume can do
      loads:
        flow: { title: Flow of the water, unit: m/s, range: 0.2 m/s to 2.4 m/s, source: practice }
        resistance: { unit: number, range: 1 to 12, source: practice }
      ergometers:
        flume:
          title: Swimming flume
          loads: [flow, resistance]
          posture: lying
          carries_body_mass: no
          source: practice
      signals:
        stroke_length: { kind: length, range: 50 cm to 400 cm, step: 1 cm, source: practice }
      """;

  private static final String SWIM =
      """
      format: 1
      kind: protocol
      id: flume-steps
      version: 1.0.0
      title: An invented swim against a rising flow
      ergometer: flume
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      include: [basin]
      measure: [{ read: stroke_length, before_end: 20 s, if_missing: wait }]
      stages:
        - { id: easy, lasts: 2 min, flow: 0.8 m/s, resistance: 1 }
        - { id: brisk, lasts: 2 min, flow: "lesser(previous_stage.flow + 0.2 m/s, 2.4 m/s)", resistance: 2 }
      cost: flume
      stage_end:
        - { id: short, rule: finish when stroke_length < 150 cm and flow > 0.9 m/s }
        - { id: next, rule: advance }
      estimates:
        - id: last
          from: last completed stage
          vo2max: stage.uptake + 0 mL/kg/min
      """;

  private static final String COSTS =
      """
      format: 1
      kind: equations
      id: basin-equations
      version: 1.0.0
      title: An invented cost
      costs:
        - { id: flume, of: [flow, resistance], uptake: (12 + 10 * (flow in m/s) + resistance) as mL/kg/min, source: practice }
      """;

  private static Library library(String basin, String swim) {
    return Library.of(
        List.of(
            SourceFile.of("a-swim.yaml", swim),
            SourceFile.of("basin.yaml", basin),
            SourceFile.of("costs.yaml", COSTS)));
  }

  private static List<String> refused(String basin, String swim) {
    FileRefused refused = catchThrowableOfType(FileRefused.class, () -> library(basin, swim));
    return refused.diagnostics().stream().map(Object::toString).toList();
  }

  private static String withoutItsSet() {
    return Meadow.edit(
        SWIM,
        "include: [basin]\n",
        """
        signals:
          stroke_length: { kind: length, range: 50 cm to 400 cm, step: 1 cm, source: practice }
        """);
  }

  @Test
  void aFolderWithItsOwnErgometerLoadsAndSignalRunsAWholeTest(@TempDir Path folder)
      throws IOException {
    Files.writeString(folder.resolve("basin.yaml"), BASIN);
    Files.writeString(folder.resolve("a-swim.yaml"), SWIM);
    Files.writeString(folder.resolve("costs.yaml"), COSTS);
    Protocol swim = Library.load(folder).protocol("flume-steps");
    Session session = Session.open(swim, Person.builder().age(30).build());
    session.follow(session.decide(at("0:00")));
    assertThat(session.decide(at("0:10")).verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(session.decide(at("0:10")).agenda().posture()).contains("lying");
    assertThat(Loading.line(session.outcome().load(at("0:10")))).isEqualTo("0.8 m/s, 1");
    session.record(
        at("1:40"), Readings.measured("stroke_length", Quantity.of(210, Unit.CENTIMETRE)));
    assertThat(session.decide(at("2:00")).verdict()).isInstanceOf(Verdict.Advance.class);
    session.follow(session.decide(at("2:00")));
    assertThat(Loading.line(session.outcome().load(at("2:10")))).isEqualTo("1 m/s, 2");
    assertThatExceptionOfType(ReadingRefused.class)
        .isThrownBy(
            () ->
                session.loadSet(
                    at("2:20"), new Loading("flow", Quantity.of(3, Unit.METRE_PER_SECOND))))
        .withMessageContaining("0.2 m/s to 2.4 m/s");
    session.record(
        at("3:40"), Readings.measured("stroke_length", Quantity.of(140, Unit.CENTIMETRE)));
    session.follow(session.decide(at("4:00")));
    assertThat(session.outcome().ending()).contains(Ending.DONE);
  }

  @Test
  void aProtocolKnowsWhatItIsDoneOn() {
    Protocol swim = library(BASIN, SWIM).protocol("flume-steps");
    assertThat(swim.instruments().ergometer().title()).isEqualTo("Swimming flume");
    assertThat(swim.instruments().ergometer().carriesBodyMass()).isFalse();
    assertThat(swim.instruments().components().values())
        .extracting(each -> each.title())
        .containsExactly("Flow of the water", "Resistance");
  }

  @Test
  void anEquationKnowsTheLoadsOfTheLibrary() {
    Map<String, Quantity> values =
        Map.of(
            "flow", Quantity.of(1, Unit.METRE_PER_SECOND), "resistance", Quantity.of(3, Unit.ONE));
    assertThat(library(BASIN, SWIM).equation("flume").at(values).value())
        .contains(Quantity.of(25, Unit.ML_PER_KG_PER_MINUTE));
  }

  @Test
  void theFileThatDeclaresIsKeptBesideARecordAndCountsInTheFingerprint() {
    String swim = withoutItsSet();
    Library library = library(BASIN, swim);
    assertThat(library.filesOf("flume-steps")).extracting(SourceFile::name).contains("basin.yaml");
    Map<String, String> items = library.protocol("flume-steps").heading().fingerprint().items();
    Map<String, String> changes =
        Map.of(
            "posture: lying", "posture: seated",
            "carries_body_mass: no", "carries_body_mass: yes",
            "loads: [flow, resistance]", "loads: [resistance, flow]",
            "to 12", "to 14");
    changes.forEach(
        (part, by) -> {
          Protocol other = library(Meadow.edit(BASIN, part, by), swim).protocol("flume-steps");
          assertThat(other.heading().fingerprint().items()).describedAs(by).isNotEqualTo(items);
        });
  }

  @Test
  void theFilesOfAnyProtocolHoldTheLoadsOfItsEquations() {
    Library both =
        Library.of(
            List.of(
                SourceFile.of("basin.yaml", BASIN),
                SourceFile.of("costs.yaml", COSTS),
                SourceFile.of("walk.yaml", Meadow.WALK),
                SourceFile.of("watch.yaml", Meadow.WATCH),
                SourceFile.of("equations.yaml", Meadow.EQUATIONS)));
    assertThat(Library.of(both.filesOf("meadow-walk")).protocols()).contains("meadow-walk");
  }

  @Test
  void anEquationTakesNoLoadThatAProtocolDeclares() {
    String loads = BASIN.substring(BASIN.indexOf("loads:"), BASIN.indexOf("ergometers:"));
    assertThat(refused(BASIN.replace(loads, ""), SWIM + loads))
        .anyMatch(said -> said.contains("flow is not a load that a rule set declares"));
  }

  @Test
  void aRangeCountsAlsoWhereItsSetIsNotIncluded() {
    String swim = withoutItsSet();
    assertThat(refused(BASIN, swim.replace("0.8 m/s", "2.5 m/s")))
        .anyMatch(said -> said.contains("the flow of easy could be 2.5 m/s"));
  }

  @Test
  void aStageSetsOnlyWhatTheErgometerHas() {
    assertThat(refused(BASIN.replace("loads: [flow, resistance]", "loads: [flow]"), SWIM))
        .singleElement()
        .asString()
        .contains("resistance is not a load of flume", "its loads are flow");
  }

  @Test
  void whatIsDeclaredTwiceOrWronglyIsRefused() {
    assertThat(refused(BASIN, SWIM + "loads: { flow: { unit: m/s } }\n"))
        .filteredOn(said -> said.contains("G306"))
        .singleElement()
        .asString()
        .contains("the load flow (also in a-swim.yaml) is given twice");
    assertThat(refused(BASIN.replace("  flow:", "  speed:"), SWIM))
        .anyMatch(said -> said.contains("the load speed (also in standard-equipment.yaml)"));
    assertThat(refused(BASIN, SWIM.replace("ergometer: flume", "ergometer: flum")))
        .singleElement()
        .asString()
        .contains("did you mean flume?");
    assertThat(refused(BASIN.replace("unit: m/s", "unit: knots"), SWIM))
        .anyMatch(said -> said.contains("knots is not a unit"));
    assertThat(refused(BASIN.replace("unit: number, range: 1", "range: 1"), SWIM))
        .anyMatch(said -> said.contains("there is no load called resistance"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"lasts", "stage_end", "posture", "series", "mass", "uptake", "stage"})
  void aLoadTakesNoNameThatMeansSomethingElse(String name) {
    String basin = BASIN.replace("resistance:", name + ":").replace("flow, resistance", "flow");
    assertThatThrownBy(() -> library(basin, SWIM)).hasMessageContaining(name + " is not a");
  }
}
