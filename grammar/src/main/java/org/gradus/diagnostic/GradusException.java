package org.gradus.diagnostic;

import java.util.List;

/**
 * Everything Gradus throws on purpose. Catch the subtypes you can do something about; each names
 * the value, the place or the limit, and the remedy, and leaves every object as it was.
 */
public abstract sealed class GradusException extends RuntimeException
    permits FileRefused,
        ReadingRefused,
        SettingRefused,
        VerdictRefused,
        DecisionOutdated,
        JournalFailed,
        RecordRefused,
        SessionInUse,
        EventConflict,
        JsonRefused,
        ValueRefused,
        InputRefused,
        NotFound {

  private static final long serialVersionUID = 1L;

  private final Code code;
  private final transient List<String> arguments;

  GradusException(Code code, List<String> arguments) {
    super(sentence(code, arguments));
    this.code = code;
    this.arguments = List.copyOf(arguments);
  }

  GradusException(Code code, String message) {
    super(message);
    this.code = code;
    this.arguments = List.of();
  }

  /** The stable code of what went wrong. */
  public Code code() {
    return code;
  }

  /** What the message of the code speaks of, so that a host can word it anew. */
  public List<String> arguments() {
    return arguments;
  }

  /** What to do about it, in English. */
  public String remedy() {
    return code.help(arguments);
  }

  private static String sentence(Code code, List<String> arguments) {
    String help = code.help(arguments);
    return code + ": " + code.message(arguments) + (help.isEmpty() ? "" : "; " + help);
  }
}
