package org.gradus.history;

import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.GradusException;

/** Refusals as JSON; they are written only. */
final class RefusalText {

  private static final Map<String, Object> TEXT = Form.TEXT.schema();
  private static final Map<String, Object> TEXTS = Form.list(Form.TEXT).schema();
  private static final Map<String, Object> WHOLE = Form.WHOLE.schema();

  static final Map<String, Object> SCHEMA =
      Form.described(
          Lines.map(
              "refused",
              TEXT,
              "code",
              TEXT,
              "message",
              TEXT,
              "arguments",
              TEXTS,
              "remedy",
              TEXT,
              "diagnostics",
              Lines.map(
                  "type",
                  "array",
                  "items",
                  Form.described(
                      Lines.map(
                          "code",
                          TEXT,
                          "file",
                          TEXT,
                          "line",
                          WHOLE,
                          "column",
                          WHOLE,
                          "message",
                          TEXT,
                          "arguments",
                          TEXTS,
                          "help",
                          TEXT),
                      List.of("code", "file", "line", "column", "message", "arguments", "help")))),
          List.of("refused", "code", "message", "arguments", "remedy"));

  private RefusalText() {}

  static Map<String, Object> write(GradusException refusal) {
    Map<String, Object> fields =
        Lines.map(
            "refused",
            refusal.getClass().getSimpleName(),
            "code",
            refusal.code().name(),
            "message",
            String.valueOf(refusal.getMessage()),
            "arguments",
            refusal.arguments(),
            "remedy",
            refusal.remedy());
    if (refusal instanceof FileRefused file) {
      fields.put("diagnostics", file.diagnostics().stream().map(RefusalText::write).toList());
    }
    return fields;
  }

  private static Map<String, Object> write(Diagnostic problem) {
    return Lines.map(
        "code",
        problem.code().name(),
        "file",
        problem.where().file().name(),
        "line",
        problem.where().line(),
        "column",
        problem.where().column(),
        "message",
        problem.message(),
        "arguments",
        problem.arguments(),
        "help",
        problem.help());
  }
}
