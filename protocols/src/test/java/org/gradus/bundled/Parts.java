package org.gradus.bundled;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.diagnostic.SourceFile;

/** The bundled files that one protocol needs: itself, the sets it includes, and all equations. */
final class Parts {

  private static final Pattern INCLUDED =
      Pattern.compile("^  - (?:use: |\\{ use: )?([a-z][a-z0-9-]+)\\b", Pattern.MULTILINE);

  private Parts() {}

  static List<SourceFile> of(String protocol) {
    Set<String> names = new LinkedHashSet<>();
    String text = named(protocol + ".yaml").text();
    int from = text.indexOf("\ninclude:\n");
    Matcher includes = INCLUDED.matcher(text.substring(from, text.indexOf("\nsources:", from)));
    while (includes.find()) {
      names.add(includes.group(1) + ".yaml");
    }
    return Bundled.files().stream()
        .filter(
            file ->
                names.contains(file.name())
                    || file.name().equals(protocol + ".yaml")
                    || file.text().contains("\nkind: equations\n"))
        .toList();
  }

  static SourceFile named(String name) {
    return Bundled.files().stream()
        .filter(file -> file.name().equals(name))
        .findFirst()
        .orElseThrow();
  }
}
