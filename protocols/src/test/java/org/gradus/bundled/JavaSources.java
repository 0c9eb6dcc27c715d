package org.gradus.bundled;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.HashMap;
import java.util.Map;

/** The Java files of the whole project, for tests of what pages say about them. */
final class JavaSources {

  static final Path TOP = Path.of("..");

  private JavaSources() {}

  /** Every file under the simple name of its class; of two, the one of main code. */
  static Map<String, Path> byClass() throws IOException {
    Map<String, Path> sources = new HashMap<>();
    Files.walkFileTree(
        TOP,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
            String name = folder.getFileName().toString();
            boolean skipped = name.equals("target") || name.equals(".git");
            return skipped ? FileVisitResult.SKIP_SUBTREE : FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            String name = file.getFileName().toString();
            if (name.endsWith(".java")) {
              sources.merge(
                  name.replace(".java", ""),
                  file,
                  (one, other) -> other.toString().contains("/src/main/") ? other : one);
            }
            return FileVisitResult.CONTINUE;
          }
        });
    return sources;
  }
}
