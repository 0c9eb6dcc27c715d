package org.gradus.history;

import static org.gradus.history.Form.TEXT;
import static org.gradus.history.Form.WHOLE;
import static org.gradus.history.Form.part;
import static org.gradus.history.Form.parts;
import static org.gradus.history.Form.whole;

import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;

/** What is wrong in files, and refusals, as JSON. Refusals are written only. */
final class DiagnosticForm {

  static final Form<GradusException> REFUSAL =
      Form.of(
          DiagnosticForm::write,
          (in, name) -> {
            throw in.unreadable(name, "is only written");
          },
          schema());

  private DiagnosticForm() {}

  private static Form<Code> codes() {
    return Form.words(Arrays.asList(Code.values()), Enum::name);
  }

  /**
   * A diagnostic about some files. A place stands both as offsets and as line and column of its
   * start, which alone are not read.
   */
  static Form<Diagnostic> of(Collection<SourceFile> files) {
    return whole(
        got -> new Diagnostic(got.at(0), labels(got), got.at(5)),
        part("code", Diagnostic::code, codes()),
        part("file", problem -> problem.where().file().name(), TEXT),
        part("line", problem -> problem.where().line(), WHOLE),
        part("column", problem -> problem.where().column(), WHOLE),
        part("message", Diagnostic::message, TEXT),
        parts("arguments", Diagnostic::arguments, TEXT),
        part("help", Diagnostic::help, TEXT),
        parts(
            "labels",
            Diagnostic::labels,
            whole(
                label -> new Diagnostic.Label(place(label, files), label.at(3)),
                part("file", label -> label.where().file().name(), TEXT),
                part("start", label -> label.where().start(), WHOLE),
                part("end", label -> label.where().end(), WHOLE),
                part("note", Diagnostic.Label::note, TEXT),
                part("line", label -> label.where().line(), WHOLE),
                part("column", label -> label.where().column(), WHOLE))));
  }

  private static List<Diagnostic.Label> labels(Form.Got got) {
    List<Diagnostic.Label> labels = got.at(7);
    if (labels.isEmpty()) {
      throw got.from().unreadable("labels", "is empty; a diagnostic has a place");
    }
    return labels;
  }

  private static Span place(Form.Got got, Collection<SourceFile> files) {
    String name = got.at(0);
    int start = got.at(1);
    int end = got.at(2);
    SourceFile file =
        files.stream()
            .filter(one -> one.name().equals(name))
            .findFirst()
            .orElseThrow(() -> got.from().unreadable("file", "is none of those given: " + name));
    if (start < 0 || end < start || end > file.text().length()) {
      throw got.from().unreadable("start", "is outside the file: " + start + " to " + end);
    }
    return new Span(file, start, end);
  }

  private static Map<String, Object> schema() {
    return Form.described(
        Lines.map(
            "refused",
            TEXT.schema(),
            "code",
            TEXT.schema(),
            "message",
            TEXT.schema(),
            "arguments",
            Form.list(TEXT).schema(),
            "remedy",
            TEXT.schema(),
            "diagnostics",
            Form.list(of(List.of())).schema(),
            "differences",
            Form.list(TEXT).schema()),
        List.of("refused", "code", "message", "arguments", "remedy"));
  }

  private static Map<String, Object> write(GradusException refusal) {
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
    addDiagnostics(refusal, fields);
    addDifferences(refusal, fields);
    return fields;
  }

  private static void addDiagnostics(GradusException refusal, Map<String, Object> fields) {
    if (refusal instanceof FileRefused file) {
      fields.put("diagnostics", Form.list(of(List.of())).write(file.diagnostics()));
    }
  }

  private static void addDifferences(GradusException refusal, Map<String, Object> fields) {
    if (refusal instanceof RecordRefused record && !record.differences().isEmpty()) {
      fields.put("differences", record.differences());
    }
  }
}
