package org.gradus.examples.console;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.InstantSource;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.gradus.bundled.Bundled;

/**
 * The live console: a web application for one tester and the people beside the treadmill.
 *
 * <p>Gradus advises a trained person, who decides. It is not a medical device.
 */
public final class Console {

  private static final String HELP =
      """
      console [--port N] [--folder FOLDER] [--speed X] [--address HOST]
        --port N         the port; 8460 unless given, 0 takes any that is free
        --folder FOLDER  where the records are kept; gradus-tests unless given
        --speed X        how fast the clock of new tests runs; 1 unless given, more to try things
        --address HOST   another address than loopback; the console then asks for a token
      """;

  private Console() {}

  /** What the console is started with. */
  private record Options(int port, Path folder, double speed, Optional<String> address) {}

  /**
   * Starts the console, prints its address and stays until the process is ended.
   *
   * @param arguments as {@code --help} lists them
   */
  public static void main(String[] arguments) throws IOException, InterruptedException {
    Optional<Options> options;
    try {
      options = options(new ArrayDeque<>(List.of(arguments)));
    } catch (IllegalArgumentException wrong) {
      System.err.println(wrong.getMessage() + "\n" + HELP);
      System.exit(2);
      return;
    }
    if (options.isEmpty()) {
      System.out.println(HELP);
      return;
    }
    System.out.println(start(options.get()));
    Thread.currentThread().join();
  }

  private static Optional<Options> options(Deque<String> words) {
    int port = 8460;
    Path folder = Path.of("gradus-tests");
    double speed = 1;
    Optional<String> address = Optional.empty();
    while (!words.isEmpty()) {
      String name = words.remove();
      switch (name) {
        case "" -> {}
        case "--help" -> {
          return Optional.empty();
        }
        case "--port" -> port = (int) number(name, words, 0, 65_535);
        case "--folder" -> folder = Path.of(value(name, words));
        case "--speed" -> speed = number(name, words, 0.1, 600);
        case "--address" -> address = Optional.of(value(name, words));
        default -> throw new IllegalArgumentException("There is no option " + name + ".");
      }
    }
    return Optional.of(new Options(port, folder, speed, address));
  }

  private static String value(String name, Deque<String> words) {
    if (words.isEmpty()) {
      throw new IllegalArgumentException(name + " needs a value.");
    }
    return words.remove();
  }

  private static double number(String name, Deque<String> words, double least, double most) {
    String value = value(name, words);
    if (!value.matches("[0-9]{1,5}(\\.[0-9]{1,3})?")
        || Double.parseDouble(value) < least
        || Double.parseDouble(value) > most) {
      throw new IllegalArgumentException(
          name + " needs a number from " + least + " to " + most + ", not " + value + ".");
    }
    return Double.parseDouble(value);
  }

  /** Opens the site and says where it is. */
  private static String start(Options options) throws IOException {
    Files.createDirectories(options.folder());
    Tests tests =
        new Tests(Bundled.library(), options.folder(), options.speed(), InstantSource.system());
    InetAddress host =
        options.address().isPresent()
            ? InetAddress.getByName(options.address().get())
            : InetAddress.getLoopbackAddress();
    Optional<String> token = host.isLoopbackAddress() ? Optional.empty() : Optional.of(token());
    Site site = Site.open(new InetSocketAddress(host, options.port()), tests, token);
    Runtime.getRuntime().addShutdownHook(new Thread(site::close));
    String name = host.isLoopbackAddress() ? "localhost" : options.address().orElseThrow();
    return "Gradus advises a trained person, who decides. It is not a medical device.\n"
        + "Records are kept in "
        + options.folder().toAbsolutePath()
        + "\nOpen http://"
        + name
        + ":"
        + site.port()
        + "/"
        + token.map("?token="::concat).orElse("");
  }

  private static String token() {
    byte[] bytes = new byte[16];
    new SecureRandom().nextBytes(bytes);
    return HexFormat.of().formatHex(bytes);
  }
}
