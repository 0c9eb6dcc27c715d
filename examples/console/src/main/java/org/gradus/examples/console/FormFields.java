package org.gradus.examples.console;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.gradus.words.Name;

/** The named values of a request, as a browser encodes a form. */
final class FormFields {

  private final Map<String, String> values = new LinkedHashMap<>();

  /**
   * Reads a query or the body of a form.
   *
   * @throws Refusal when it is not encoded as one
   */
  FormFields(String encoded) {
    for (String pair : encoded.split("&", -1)) {
      int equals = pair.indexOf('=');
      if (equals > 0) {
        values.put(decoded(pair.substring(0, equals)), decoded(pair.substring(equals + 1)));
      }
    }
  }

  private static String decoded(String text) {
    try {
      return URLDecoder.decode(text, StandardCharsets.UTF_8);
    } catch (IllegalArgumentException e) {
      throw new Refusal(
          400, "The request is not encoded as a form: {0}", String.valueOf(e.getMessage()));
    }
  }

  Optional<String> maybe(String name) {
    return Optional.ofNullable(values.get(name)).map(String::strip).filter(text -> !text.isEmpty());
  }

  /** A value that has to be there. */
  String text(String name) {
    return maybe(name).orElseThrow(() -> new Refusal(422, "Fill in: {0}.", new Name(name)));
  }

  /** A number that has to be there. */
  double number(String name) {
    String text = text(name).replace(',', '.');
    if (!text.matches("-?[0-9]{1,6}(\\.[0-9]{1,6})?")) {
      throw new Refusal(422, "{0} needs a number, not {1}.", new Name(name), text);
    }
    return Double.parseDouble(text);
  }

  /** A whole number that has to be there. */
  int whole(String name) {
    double number = number(name);
    if (number != Math.rint(number)) {
      throw new Refusal(422, "{0} needs a whole number.", new Name(name));
    }
    return (int) number;
  }

  boolean has(String name) {
    return maybe(name).isPresent();
  }

  /** All values whose names begin so, by the rest of their names. */
  Map<String, String> under(String beginning) {
    Map<String, String> found = new LinkedHashMap<>();
    values.forEach(
        (name, value) -> {
          if (name.startsWith(beginning) && !value.isBlank()) {
            found.put(name.substring(beginning.length()), value.strip());
          }
        });
    return found;
  }
}
