package org.gradus.examples.workbench;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.InputRefused;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.RecordRefused;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;

/** Says what is wrong, what to do about it, and nothing else; one line where that is enough. */
final class Complaints implements IParameterExceptionHandler, IExecutionExceptionHandler {

  // Readers of these lines do not know Java.
  private static final Map<String, String> TYPES =
      Map.of(
          "is not an int", "is not a whole number",
          "is not a long", "is not a whole number",
          "is not a double", "is not a number; give it without a unit");

  private static final Pattern UNNAMEABLE =
      Pattern.compile(
          "'(.*)' to interface java\\.nio\\.file\\.Path .*InvalidPathException", Pattern.DOTALL);

  private final PrintWriter errors;
  private final int columns;

  /**
   * Complaints.
   *
   * @param columns how wide lines may be; 0 for any width
   */
  Complaints(PrintWriter errors, int columns) {
    this.errors = errors;
    this.columns = columns;
  }

  /** Says what is wrong. */
  void say(String text) {
    Wrap.text(text, columns).forEach(errors::println);
  }

  /** A count of errors in words. */
  static String errors(int count) {
    return count == 1 ? "1 error" : count + " errors";
  }

  @Override
  public int handleParseException(ParameterException problem, String[] arguments) {
    Matcher unnameable = UNNAMEABLE.matcher(String.valueOf(problem.getMessage()));
    if (unnameable.find()) {
      say(
          unnameable.group(1)
              + ": this locale cannot name such a file; set a UTF-8 locale, such as"
              + " LC_ALL=C.UTF-8");
      return Workbench.NOT_UNDERSTOOD;
    }
    String message = String.valueOf(problem.getMessage());
    for (Map.Entry<String, String> type : TYPES.entrySet()) {
      message = message.replace(type.getKey(), type.getValue());
    }
    say(message);
    CommandLine command = problem.getCommandLine();
    StringWriter suggestions = new StringWriter();
    boolean some =
        CommandLine.UnmatchedArgumentException.printSuggestions(
            problem, new PrintWriter(suggestions, true));
    say(
        some
            ? suggestions.toString().strip()
            : "see: " + command.getCommandSpec().qualifiedName() + " --help");
    return Workbench.NOT_UNDERSTOOD;
  }

  @Override
  public int handleExecutionException(Exception problem, CommandLine command, ParseResult asked) {
    if (problem instanceof FileRefused refused) {
      refused.diagnostics().forEach(found -> say(found + "\n"));
      say(errors(refused.diagnostics().size()));
      return Workbench.REFUSED;
    } else if (problem instanceof UncheckedIOException
        || problem instanceof InputRefused
        || problem instanceof JournalFailed
        || problem instanceof RecordRefused) {
      say(String.valueOf(problem.getMessage()));
      return Workbench.REFUSED;
    } else if (problem instanceof NotFound) {
      say(String.valueOf(problem.getMessage()));
      if (!asked.hasMatchedOption("--folder")) {
        say("to add files of your own: --folder DIR");
      }
      return Workbench.NOT_UNDERSTOOD;
    } else if (problem instanceof ReadingRefused) {
      say(String.valueOf(problem.getMessage()));
      return Workbench.NOT_UNDERSTOOD;
    }
    say(
        problem instanceof GradusException
            ? String.valueOf(problem.getMessage())
            : "unexpected error: " + problem + "; please report it");
    return Workbench.FOUND;
  }
}
