package org.gradus.session;

import java.util.List;
import java.util.stream.Collectors;
import org.gradus.unit.Quantity;

/**
 * One component of the load that is set.
 *
 * @param name {@code speed}, {@code grade}, {@code power} and so on
 * @param value how much
 */
public record Loading(String name, Quantity value) {

  /** Loads in one line: {@code 1.7 mph, 10 %}. */
  public static String line(List<Loading> loads) {
    return loads.isEmpty()
        ? "no load"
        : loads.stream().map(load -> load.value().toString()).collect(Collectors.joining(", "));
  }
}
