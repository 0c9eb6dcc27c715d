package org.gradus.examples.workbench;

import java.util.LinkedHashMap;
import java.util.Map;
import org.gradus.protocol.Protocol;
import picocli.CommandLine.Option;

/** Settings of a protocol that are changed for a command. */
final class Settings {

  @Option(
      names = "--set",
      paramLabel = "NAME=VALUE",
      description = "Change a setting of the protocol: steady_band=6bpm. May be given again.")
  private Map<String, String> changed = new LinkedHashMap<>();

  /** A protocol with them. */
  Protocol in(Protocol protocol) {
    Protocol with = protocol;
    for (Map.Entry<String, String> setting : changed.entrySet()) {
      with = with.withWritten(setting.getKey(), setting.getValue());
    }
    return with;
  }
}
