package org.gradus.diagnostic;

import java.util.List;
import org.gradus.words.Message;

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
        LoadingStopped,
        NotFound {

  private static final long serialVersionUID = 1L;

  private final Code code;
  private final transient List<Object> arguments;

  GradusException(Code code, List<Object> arguments) {
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

  /** What went wrong, to be said in any language. */
  public Message problem() {
    return new Message(code, arguments);
  }

  /** What to do about it, to be said in any language; what is said may be empty. */
  public Message help() {
    return new Message(code.help(), arguments);
  }

  /** What the message of the code speaks of, in English. */
  public List<String> arguments() {
    return arguments.stream().map(Object::toString).toList();
  }

  /** What to do about it, in English. */
  public String remedy() {
    return help().toString();
  }

  private static String sentence(Code code, List<Object> arguments) {
    String help = new Message(code.help(), arguments).toString();
    return code + ": " + new Message(code, arguments) + (help.isEmpty() ? "" : "; " + help);
  }
}
