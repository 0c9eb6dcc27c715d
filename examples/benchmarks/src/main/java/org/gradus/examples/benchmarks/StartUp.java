package org.gradus.examples.benchmarks;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import java.util.stream.Stream;

/**
 * Starts fresh processes and takes the time until they have printed a line, each way in turn, so
 * that a machine that is slower for a while is slower for all.
 */
final class StartUp {

  private static final int RUNS = 15;

  /** What a process does until its first line, and with which options. */
  enum Way {
    /** Any program at all. */
    FIRST_LINE("any program: its first line", "started"),
    /** Everything checked. */
    ALL("all bundled files", ""),
    /** All classes out of an archive. */
    ALL_SHARED("all bundled files, shared class data", ""),
    /** One protocol checked. */
    ONE("one protocol", FirstDecision.ONE),
    /** The same with all classes out of an archive. */
    ONE_SHARED("one protocol, shared class data", FirstDecision.ONE),
    /** The same without the second compiler, which a short program does not need. */
    ONE_SHARED_FIRST_COMPILER(
        "one protocol, shared class data, first compiler only", FirstDecision.ONE);

    private final String label;
    private final String argument;

    Way(String label, String argument) {
      this.label = label;
      this.argument = argument;
    }

    String label() {
      return label;
    }

    private List<String> options(Path archive) {
      String shared = "-XX:SharedArchiveFile=" + archive;
      return switch (this) {
        case FIRST_LINE, ALL, ONE -> List.of();
        case ALL_SHARED, ONE_SHARED -> List.of(shared);
        case ONE_SHARED_FIRST_COMPILER -> List.of(shared, "-XX:TieredStopAtLevel=1");
      };
    }
  }

  /**
   * What a process took to its first line.
   *
   * @param wall by the clock on the wall
   * @param processor on all processors together
   */
  record Took(Duration wall, Duration processor) {}

  private StartUp() {}

  /** The medians of several runs of each way, by the clock on the wall and by the processors'. */
  static Map<Way, Took> medians() {
    try {
      Path folder = Files.createTempDirectory("start");
      String path = jars(folder);
      Path archive = folder.resolve("classes.jsa");
      took(path, List.of("-XX:ArchiveClassesAtExit=" + archive), FirstDecision.ONE);
      Map<Way, List<Took>> all = new EnumMap<>(Way.class);
      for (int run = 0; run < RUNS; run++) {
        for (Way way : Way.values()) {
          all.computeIfAbsent(way, some -> new ArrayList<>())
              .add(took(path, way.options(archive), way.argument));
        }
      }
      Map<Way, Took> medians = new EnumMap<>(Way.class);
      all.forEach(
          (way, runs) ->
              medians.put(
                  way,
                  new Took(
                      median(runs.stream().map(Took::wall)),
                      median(runs.stream().map(Took::processor)))));
      return medians;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Duration median(Stream<Duration> times) {
    return times.sorted().toList().get(RUNS / 2);
  }

  // Class data can be shared of jars only.
  private static String jars(Path folder) throws IOException {
    List<String> path = new ArrayList<>();
    for (String part : System.getProperty("java.class.path").split(File.pathSeparator, -1)) {
      Path place = Path.of(part);
      path.add(
          Files.isDirectory(place)
              ? jar(place, folder.resolve(path.size() + ".jar")).toString()
              : part);
    }
    return String.join(File.pathSeparator, path);
  }

  private static Path jar(Path classes, Path jar) throws IOException {
    try (OutputStream file = Files.newOutputStream(jar);
        JarOutputStream out = new JarOutputStream(file);
        Stream<Path> files = Files.walk(classes)) {
      for (Path one : files.filter(Files::isRegularFile).sorted().toList()) {
        out.putNextEntry(new JarEntry(classes.relativize(one).toString().replace('\\', '/')));
        Files.copy(one, out);
      }
    }
    return jar;
  }

  private static Took took(String path, List<String> options, String argument) throws IOException {
    List<String> command =
        new ArrayList<>(Processes.java(path, FirstDecision.class, options.toArray(String[]::new)));
    if (!argument.isEmpty()) {
      command.add(argument);
    }
    long start = System.nanoTime();
    Process process = new ProcessBuilder(command).start();
    try (BufferedReader lines = process.inputReader(StandardCharsets.UTF_8)) {
      if (lines.readLine() == null) {
        throw new IllegalStateException("nothing printed by " + command);
      }
      Duration wall = Duration.ofNanos(System.nanoTime() - start);
      // It waits until it is told to end, so that it can be asked how much it took.
      Duration processor = process.info().totalCpuDuration().orElse(Duration.ZERO);
      process.getOutputStream().close();
      process.waitFor();
      return new Took(wall, processor);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }
}
