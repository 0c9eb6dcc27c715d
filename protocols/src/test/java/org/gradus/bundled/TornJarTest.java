package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.File;
import java.lang.reflect.InvocationTargetException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A jar that lost a file is refused with the name of the file. */
class TornJarTest {

  @Test
  void aBundledFileThatIsNotThereIsNamed(@TempDir Path torn) throws Exception {
    Path whole = Path.of(Bundled.class.getProtectionDomain().getCodeSource().getLocation().toURI());
    copy(whole, torn);
    Files.delete(torn.resolve("org/gradus/bundled/row-steps.yaml"));
    List<URL> path = new ArrayList<>(List.of(torn.toUri().toURL()));
    for (String part : System.getProperty("java.class.path").split(File.pathSeparator, -1)) {
      if (!Path.of(part).toAbsolutePath().equals(whole)) {
        path.add(Path.of(part).toUri().toURL());
      }
    }
    try (URLClassLoader loader = new URLClassLoader(path.toArray(new URL[0]), null)) {
      Class<?> bundled = loader.loadClass(Bundled.class.getName());
      assertThat(bundled).isNotSameAs(Bundled.class);
      assertThatThrownBy(() -> bundled.getMethod("files").invoke(null))
          .isInstanceOf(InvocationTargetException.class)
          .rootCause()
          .hasMessage("not on the class path: row-steps.yaml");
      assertThatThrownBy(() -> bundled.getMethod("files").invoke(null))
          .cause()
          .hasMessage(
              "G624: the file row-steps.yaml of the library cannot be read: not on the class path:"
                  + " row-steps.yaml; use the jar as it was published");
    }
  }

  private static void copy(Path from, Path to) throws Exception {
    try (Stream<Path> files = Files.walk(from)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        Path copy = to.resolve(from.relativize(file).toString());
        Files.createDirectories(copy.getParent());
        Files.copy(file, copy);
      }
    }
  }
}
