package org.gradus.examples.console;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;

/** The console in a real browser, driven by what a person sees: buttons and labels. */
final class Page implements AutoCloseable {

  private static final Duration PATIENCE = Duration.ofSeconds(8);

  private final ChromeDriver driver;
  // Why the last step could not be done, for the message.
  private String refused = "";

  private Page(ChromeDriver driver) {
    this.driver = driver;
  }

  private static Optional<String> program(String property, String... usual) {
    return Stream.concat(Stream.ofNullable(System.getProperty(property)), Stream.of(usual))
        .filter(path -> Files.isExecutable(Path.of(path)))
        .findFirst();
  }

  /** Whether there are a browser and its driver on this machine. */
  static boolean canBeHad() {
    return browser().isPresent() && driver().isPresent();
  }

  private static Optional<String> browser() {
    return program("browser", "/usr/bin/chromium", "/usr/bin/google-chrome");
  }

  private static Optional<String> driver() {
    return program("chromedriver", "/usr/bin/chromedriver");
  }

  static Page open() {
    ChromeOptions options = new ChromeOptions();
    options.setBinary(browser().orElseThrow());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--window-size=1280,900");
    // Named, so that nothing is looked for elsewhere.
    System.setProperty("webdriver.chrome.driver", driver().orElseThrow());
    return new Page(new ChromeDriver(options));
  }

  void go(String address) {
    driver.get("about:blank");
    driver.get(address);
  }

  String address() {
    return java.util.Objects.requireNonNullElse(driver.getCurrentUrl(), "");
  }

  /** Sets how wide the window is, and whether it is dark. */
  void look(int width, boolean dark) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", false));
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of(
            "features",
            List.of(Map.of("name", "prefers-color-scheme", "value", dark ? "dark" : "light"))));
  }

  /** Presses the button, or follows the link, with these words. */
  void press(String words) {
    await("a button: " + words, () -> tried(() -> found(words).click()));
  }

  // While a dialog is open only what is in it can be pressed.
  private WebElement found(String words) {
    return first(
        """
        return [...(document.querySelector('dialog[open]') || document)
            .querySelectorAll('button, a, summary')].find(found => found.checkVisibility()
            && found.innerText.trim().replace(/\\s+/g, ' ').startsWith(arguments[0]))""",
        words);
  }

  private WebElement labelled(String words) {
    return first(
        """
        const label = [...document.querySelectorAll('label')].find(found => found.checkVisibility()
            && found.innerText.trim().replace(/\\s+/g, ' ').startsWith(arguments[0]));
        return label && document.getElementById(label.htmlFor)""",
        words);
  }

  private WebElement first(String script, String words) {
    if (driver.executeScript(script, words) instanceof WebElement element) {
      return element;
    }
    throw new org.openqa.selenium.NoSuchElementException(words);
  }

  /** Types into the field with this label. */
  void type(String label, String text) {
    await(
        "a field: " + label,
        () ->
            tried(
                () -> {
                  WebElement input = labelled(label);
                  input.clear();
                  input.sendKeys(text);
                }));
  }

  private boolean tried(Runnable step) {
    try {
      step.run();
      refused = "";
      return true;
    } catch (org.openqa.selenium.NoSuchElementException
        | StaleElementReferenceException
        | org.openqa.selenium.ElementNotInteractableException notYet) {
      refused = String.valueOf(notYet.getMessage());
      return false;
    }
  }

  /** Waits until a text stands on the page. */
  void see(String words) {
    await("the words: " + words, () -> text().contains(words));
  }

  /** Waits until a text has gone from the page. */
  void seeNoMore(String words) {
    await("no more words: " + words, () -> !text().contains(words));
  }

  /** What stands on the page, with plain blanks between figures and units. */
  String text() {
    return run("return document.body.innerText").toString().replace('\u00a0', ' ');
  }

  private void await(String what, java.util.function.BooleanSupplier seen) {
    Instant until = Instant.now().plus(PATIENCE);
    while (!seen.getAsBoolean()) {
      if (Instant.now().isAfter(until)) {
        throw new AssertionError(
            "Waited in vain for " + what + " (" + refused + "). The page says:\n" + text());
      }
      try {
        Thread.sleep(40);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException(e);
      }
    }
  }

  Object run(String script) {
    return java.util.Objects.requireNonNullElse(driver.executeScript(script), "");
  }

  /** Presses a key where the focus is. */
  void key(CharSequence key) {
    driver.switchTo().activeElement().sendKeys(key);
  }

  /** What has the focus, by its words. */
  String focused() {
    return driver.switchTo().activeElement().getText();
  }

  /** Opens a second window on the same page and goes there. */
  String another() {
    String first = driver.getWindowHandle();
    String address = address();
    driver.switchTo().newWindow(org.openqa.selenium.WindowType.WINDOW);
    driver.get(address);
    return first;
  }

  void window(String name) {
    driver.switchTo().window(name);
  }

  String window() {
    return driver.getWindowHandle();
  }

  /** That nothing scrolls sideways and no rule for access is broken, in light and in dark. */
  void checked(String screen) {
    for (boolean dark : new boolean[] {false, true}) {
      for (int width : new int[] {360, 800, 1280}) {
        look(width, dark);
        picture(screen + "-" + width + (dark ? "-dark" : ""));
        assertThat(
                run(
                    "const wide = part => part.scrollWidth - part.clientWidth;"
                        + " return Math.max(wide(document.documentElement), wide(document.querySelector('main')))"))
            .as("%s, %d wide, scrolls sideways by", screen, width)
            .isEqualTo(0L);
      }
      List<String> broken =
          rules(dark).analyze(driver).getViolations().stream().map(Page::words).toList();
      assertThat(broken).as("%s, %s", screen, dark ? "dark" : "light").isEmpty();
    }
    look(1280, false);
  }

  // In the dark only colours differ. Legacy: the page has no frames, which take a window to join.
  @SuppressWarnings("deprecation")
  private static AxeBuilder rules(boolean dark) {
    AxeBuilder axe = new AxeBuilder().setLegacyMode(true);
    return dark
        ? axe.withOnlyRules(List.of("color-contrast"))
        : axe.withTags(List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"));
  }

  private static String words(Rule rule) {
    return rule.getId() + ": " + rule.getHelp() + " " + rule.getNodes();
  }

  /** Keeps a picture for people, where {@code -Dpictures=FOLDER} asks for it. */
  private void picture(String name) {
    String folder = System.getProperty("pictures");
    if (folder != null) {
      try {
        Files.createDirectories(Path.of(folder));
        Files.write(Path.of(folder, name + ".png"), driver.getScreenshotAs(OutputType.BYTES));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  /** Closes the window that is looked at. */
  void shut() {
    driver.close();
  }

  @Override
  public void close() {
    driver.quit();
  }
}
