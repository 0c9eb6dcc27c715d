package org.gradus.examples.console;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedReader;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.gradus.bundled.Bundled;
import org.gradus.history.TestRecord;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Whole tests in a real browser, by the buttons that a tester presses. Time jumps to the seconds of
 * the protocol, so that a quarter of an hour takes seconds. Skipped where there is no browser:
 * {@code apt-get install chromium chromium-driver}.
 */
class ConsoleBrowserTest {

  private static @Nullable Page browser;

  @TempDir private Path folder = Path.of("");
  private Instant from = Instant.EPOCH;
  private final AtomicReference<Duration> ahead = new AtomicReference<>(Duration.ZERO);
  private final InstantSource day = () -> Instant.now().plus(ahead.get());
  private @Nullable Site site;

  @BeforeAll
  static void browser() {
    assumeTrue(Page.canBeHad(), "no browser: apt-get install chromium chromium-driver");
    browser = Page.open();
  }

  @AfterAll
  static void closed() {
    if (browser != null) {
      browser.close();
    }
  }

  private static Page page() {
    return Objects.requireNonNull(browser);
  }

  @BeforeEach
  void site() throws Exception {
    Tests tests = new Tests(Bundled.library(), folder, 1, day);
    site =
        Site.open(
            new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), tests, Optional.empty());
  }

  @AfterEach
  void away() {
    Objects.requireNonNull(site).close();
  }

  private void start() {
    page().go("http://localhost:" + Objects.requireNonNull(site).port() + "/");
  }

  private void openWalk() {
    start();
    fillIn();
  }

  private static void fillIn() {
    page().type("Search", "standard");
    page().press("Graded treadmill walk, 3-minute stages");
    page().type("Name or number", "No. 17");
    page().type("Age", "46");
    page().press("female");
    page().type("Body mass", "71");
    page().press("yes");
    // The second question of the two.
    page()
        .run(
            "[...document.querySelectorAll('fieldset')].pop().querySelectorAll('button')[1].click()");
    page().press("Open the test");
    page().see("Ask:");
  }

  private void ready() {
    for (String prompt : new String[] {"Fever", "Heart attack", "Pregnant"}) {
      page().see("Ask: " + prompt);
      page().press("no");
    }
    page().see("Ask: How long since the last meal?");
    page().type("Answer", "4");
    page().press("Record the answer");
    page().see("Ask: How long since the last coffee");
    page().type("Answer", "5");
    page().press("Record the answer");
    page().see("Next: heart rate and systolic and diastolic, resting");
    enter("heart rate", "68", "Record heart rate");
    page().see("Next: systolic and diastolic, resting");
    cuff("122", "78");
    page().see("The person is ready.");
  }

  private void begin() {
    page().press("Begin the exercise");
    page().see("in this stage");
    page().see("1.7 mph, 10 %");
    count();
  }

  private static void enter(String label, String value, String record) {
    page().type(label, value);
    page().press(record);
  }

  private static void cuff(String systolic, String diastolic) {
    page().type("systolic", systolic);
    page().type("diastolic", diastolic);
    page().press("Record systolic and diastolic");
  }

  /** From now on times are counted from here. */
  private void count() {
    from = day.instant();
  }

  /** Lets time jump to so many seconds after {@link #count}. */
  private void at(long seconds) {
    Duration left = Duration.between(day.instant(), from.plusSeconds(seconds));
    assertThat(left).as("the browser took too long before " + seconds + " s").isPositive();
    ahead.updateAndGet(now -> now.plus(left));
  }

  /** A stage of three minutes with everything that is asked for, at two steady rates. */
  private void stage(String rate, String systolic, String effort) {
    at(59);
    heartRate(Integer.toString(Integer.parseInt(rate) - 8));
    at(119);
    heartRate(rate);
    at(150);
    page().see("Next: systolic and diastolic");
    cuff(systolic, "80");
    at(166);
    page().see("Next: rpe");
    page().press(effort);
    page().see("Next: gait");
    page().press("walking");
    page().see("Next: heart rate");
    at(180);
    heartRate(rate);
  }

  private static void heartRate(String rate) {
    page().see("Next: heart rate");
    enter("heart rate", rate, "Record heart rate");
    page().see(rate + " bpm");
  }

  private TestRecord recorded() throws Exception {
    try (Stream<Path> files = Files.list(folder)) {
      Path file =
          files.filter(found -> found.toString().endsWith(".jsonl")).findFirst().orElseThrow();
      return TestRecord.parse("record", Files.readString(file));
    }
  }

  // Words that no Spanish sentence has. A rule with its figures in brackets is in the language of
  // rules.
  private static final Pattern ENGLISH =
      Pattern.compile(
          "\\b(the|and|of|with|is|are|for|from|at|to|not|this|heart|rate|stage|load|test|ask|next"
              + "|record|person|result|interval|reading|below|above|between|now|left|why|stop"
              + "|begin|walk|end|enter|answer|exercise|recovery|resting)\\b",
          Pattern.CASE_INSENSITIVE);

  private static void seeNoEnglish(String screen) {
    assertThat(
            page()
                .text()
                .lines()
                .filter(line -> !line.contains("["))
                .filter(line -> ENGLISH.matcher(line).find()))
        .as(screen)
        .isEmpty();
  }

  private static void seeAndPress(String words, String button) {
    page().see(words);
    seeNoEnglish(words);
    page().press(button);
  }

  @Test
  void aWholeWalkInSpanishShowsNoEnglishWord() {
    start();
    page().see("A test of graded exercise");
    page()
        .run(
            "const choice = document.getElementById('language'); choice.value = 'es';"
                + " choice.dispatchEvent(new Event('change'))");
    page().see("Una prueba de esfuerzo graduado");
    page().type("Buscar", "standard");
    page().press("Marcha graduada en tapiz, etapas de 3 minutos");
    page().see("La persona");
    seeNoEnglish("the form");
    page().checked("es-form");
    page().press("Abrir la prueba");
    page().see("edad no se sabe de esta persona");
    assertThat(page().text()).contains("añádalo a la persona");
    page().type("Edad", "46");
    page().press("femenino");
    page().type("Masa corporal", "71");
    page().press("sí");
    page()
        .run(
            "[...document.querySelectorAll('fieldset')].pop().querySelectorAll('button')[1].click()");
    page().press("Abrir la prueba");
    seeAndPress("Pregunte: ¿Fiebre", "no");
    seeAndPress("Pregunte: ¿Infarto", "no");
    seeAndPress("Pregunte: ¿Embarazada", "no");
    page().see("¿Cuánto tiempo desde la última comida?");
    page().type("Respuesta", "mucho");
    page().press("Anotar la respuesta");
    page().see("necesita un número, no mucho");
    seeNoEnglish("a refused answer");
    page().press("Cerrar");
    page().type("Respuesta", "4");
    page().press("Anotar la respuesta");
    page().see("¿Cuánto tiempo desde el último café");
    page().type("Respuesta", "5");
    page().press("Anotar la respuesta");
    page().see("Lo siguiente: frecuencia cardíaca y sistólica y diastólica, en reposo");
    seeNoEnglish("resting readings");
    enter("frecuencia cardíaca", "20", "Anotar frecuencia cardíaca");
    page().see("está fuera de lo posible, 25 bpm a 250 bpm; léalo otra vez");
    seeNoEnglish("a refused reading");
    enter("frecuencia cardíaca", "68", "Anotar frecuencia cardíaca");
    page().see("Lo siguiente: sistólica y diastólica, en reposo");
    page().type("sistólica", "122");
    page().type("diastólica", "78");
    page().press("Anotar sistólica y diastólica");
    seeAndPress("La persona está lista. Empiece con andar 1.", "Empezar el ejercicio");
    page().see("1.7 mph, 10 %");
    count();
    seeNoEnglish("a stage");
    page().checked("es-stage");
    page().press("dolor en el pecho");
    page().see("Quite la carga, siente a la persona y siga su plan de urgencia.");
    seeNoEnglish("a stop");
    page().checked("es-stop");
    page().press("Parado: a la recuperación");
    page().see("El ejercicio está parado");
    page().press("La persona está atendida");
    page().see("Recuperación");
    seeNoEnglish("recovery");
    at(960);
    page().see("Sin recuperar al llegar al límite");
    seeAndPress("Resultado", "Acabar aquí la vigilancia");
    page().see("Resultado; la prueba acabó: no recuperado");
    page().press("Lo anotado");
    seeNoEnglish("the end");
    page().checked("es-end");
    page().go(address("report?language=es"));
    page().see("Cómo acabó la prueba");
  }

  private String address(String part) {
    String test = page().address().replaceAll(".*#test/", "");
    return "http://localhost:"
        + Objects.requireNonNull(site).port()
        + "/api/tests/"
        + test
        + "/"
        + part;
  }

  @Test
  void aWholeWalkFromTheStartToTheReport() throws Exception {
    start();
    int all = Bundled.library().protocols().size();
    page().see(all + " of " + all + " protocols");
    page().checked("1-start");
    openWalk();
    page().checked("3-question");
    ready();
    page().checked("4-ready");
    begin();
    page().checked("5-stage");
    stage("116", "140", "11");
    page().see("Go on to walk 2");
    page().checked("6-decision");
    page().press("The new load is set");
    page().see("2.5 mph, 12 %");
    count();
    stage("138", "156", "13");
    page().see("end the exercise");
    page().press("End the exercise");
    page().see("Recovery");
    count();
    page().checked("7-recovery");
    for (int minute = 1; minute <= 4; minute++) {
      at(minute * 60 - 1);
      heartRate(Integer.toString(130 - 8 * minute));
      if (minute % 2 == 0) {
        page().see("Next: systolic and diastolic");
        cuff("124", "76");
        page().see("systolic 124 mmHg, diastolic 76 mmHg");
      }
    }
    at(301);
    page().see("The person has recovered.");
    page().press("End the test");
    page().see("Result; the test ended: recovered");
    page().checked("8-over");
    assertThat(recorded().isOver()).isTrue();
    assertThat(recorded().verify(Bundled.library())).isEmpty();
  }

  // 191 typed for 119: put right, and 26 taps in 15 s are 104 bpm. Chest pain then stops the test.
  @Test
  void aCorrectionAPulseThatIsTappedAndAStopByASymptom() throws Exception {
    openWalk();
    ready();
    begin();
    at(59);
    page().see("Next: heart rate");
    enter("heart rate", "91", "Record heart rate");
    page().see("heart rate 91 bpm");
    page().press("Correct entry");
    page().type("heart rate (was 91 bpm)", "119");
    page().press("misheard");
    page().press("Correct");
    page().see("corrected to heart rate 119 bpm: misheard");
    page().press("Count for 15 s");
    page().see("15 s left");
    for (int beat = 0; beat < 26; beat++) {
      page().key(" ");
    }
    page().see("26\nbeats");
    page()
        .run(
            "const now = performance.now.bind(performance); performance.now = () => now() + 15000");
    page().see("26 beats in 15 s: 104 bpm");
    page().press("One beat fewer");
    page().see("25 beats in 15 s: 100 bpm");
    page().press("One beat more");
    page().press("Record the pulse");
    page().see("heart rate 104 bpm");
    page().press("chest pain");
    page().see("Take the load away");
    page().checked("stop");
    page().press("Stopped: go to recovery");
    page().see("The exercise is stopped");
    page().press("The person is looked after");
    page().see("Has it gone?");
    page().press("chest pain has gone");
    page().seeNoMore("Has it gone? Anything");
    assertThat(recorded().entries().toString())
        .contains("chest_pain", "119", "104")
        .contains("Withdrawn");
    assertThat(recorded().verify(Bundled.library())).isEmpty();
  }

  @Test
  void stopTakesOnePressAndAConfirmingOneAlsoByKeyboard() {
    openWalk();
    ready();
    begin();
    page().run("document.querySelector('[data-key=stop]').focus()");
    page().key(org.openqa.selenium.Keys.ENTER);
    page().see("Stop the exercise?");
    page().checked("stop-asked");
    assertThat(page().focused()).isEqualTo("Yes, stop now");
    page().key(org.openqa.selenium.Keys.ENTER);
    page().see("The exercise is stopped");
    page().see("Load now: no load");
  }

  @Test
  void twoWindowsSeeTheSameAndDoNotFight() {
    openWalk();
    String first = page().window();
    page().another();
    String second = page().window();
    page().see("Ask: Fever");
    page().press("no");
    page().see("Ask: Heart attack");
    page().window(first);
    page().see("Ask: Heart attack");
    // Of a window that has not seen what the other one did, nothing is taken but STOP.
    Object refused =
        page()
            .run(
                "const form = new URLSearchParams({ do: 'read', seen: 0, 'value.pregnant': 'no' });"
                    + "const request = new XMLHttpRequest();"
                    + "request.open('POST', '/api/tests/' + location.hash.slice(6), false);"
                    + "request.setRequestHeader('X-Gradus', 'console');"
                    + "request.send(form.toString()); return request.status + request.responseText;");
    assertThat(refused.toString()).startsWith("409").contains("another window");
    page().window(second);
    page().shut();
    page().window(first);
  }

  @Test
  void theTesterDecidesOtherwiseAndSaysWhatWasReallySet() throws Exception {
    openWalk();
    ready();
    begin();
    page().press("Decide otherwise");
    page().checked("otherwise");
    page().press("Hold for one minute");
    // Nothing is decided against a recommendation without a reason.
    page().see("Not recorded");
    page().press("Close");
    page().type("Reason", "the belt started late");
    page().press("Hold for one minute");
    page().see("decided otherwise: HOLD, the belt started late");
    page().press("Decide otherwise");
    page().type("Really set: grade", "9");
    page().press("Record grade");
    page().see("1.7 mph, 9 %");
    assertThat(recorded().entries())
        .extracting(entry -> entry.event().kind().name())
        .endsWith("OVERRIDDEN", "LOAD_SET");
  }

  @Test
  void theSoundIsSwitchedOffAndStaysOff() {
    openWalk();
    page().press("Sound is on");
    page().see("Sound is off");
    start();
    page().type("Search", "standard");
    page().press("Graded treadmill walk, 3-minute stages");
    page().see("Open the test");
    page().checked("2-form");
    openWalk();
    page().see("Sound is off");
    page().press("Sound is off");
    page().see("Sound is on");
  }

  // In a process of its own, which is killed as by a failing machine.
  @Test
  void aKilledConsoleGoesOnAtTheRightSecond() throws Exception {
    Process killed = console();
    String address = address(killed);
    page().go(address);
    fillIn();
    page().see("Ask: Fever");
    page().press("no");
    page().see("Ask: Heart attack");
    Instant began = clock();
    String test = page().address().replaceAll(".*#", "#");
    killed.destroyForcibly().waitFor();
    page().see("The console does not answer");
    Process again = console();
    try {
      page().go(address(again) + test);
      page().see("The console was away for");
      page().see("Ask: Heart attack");
      double shown = clock(page().run("return document.getElementById('clock').textContent"));
      double real = Duration.between(began, Instant.now()).toMillis() / 1000.0;
      assertThat(shown).isBetween(real - 2, real + 1);
      page().checked("resumed");
    } finally {
      again.destroyForcibly().waitFor();
    }
  }

  private Instant clock() throws Exception {
    try (Stream<Path> files = Files.list(folder)) {
      Path file =
          files.filter(found -> found.toString().endsWith(".clock")).findFirst().orElseThrow();
      return Instant.ofEpochMilli(Long.parseLong(Files.readString(file).split(" ", 2)[0]));
    }
  }

  private static double clock(Object shown) {
    String[] parts = shown.toString().split(":", -1);
    return Integer.parseInt(parts[0]) * 60.0 + Integer.parseInt(parts[1]);
  }

  private Process console() throws Exception {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:TieredStopAtLevel=1",
            "-cp",
            System.getProperty("java.class.path"),
            Console.class.getName(),
            "--port",
            "0",
            "--folder",
            folder.toString())
        .redirectErrorStream(true)
        .start();
  }

  private static String address(Process console) throws Exception {
    BufferedReader lines = console.inputReader(StandardCharsets.UTF_8);
    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
      if (line.startsWith("Open ")) {
        return line.substring("Open ".length());
      }
    }
    throw new IllegalStateException("the console printed no address");
  }
}
