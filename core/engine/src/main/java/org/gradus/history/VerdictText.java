package org.gradus.history;

import java.util.List;
import java.util.Map;
import org.gradus.session.Agenda;
import org.gradus.session.Loading;
import org.gradus.session.Verdict;

/** Verdicts that were acted upon as fields of a line, and back; what only informs is left out. */
final class VerdictText {

  private VerdictText() {}

  static Map<String, Object> write(Verdict verdict) {
    Map<String, Object> fields = Lines.map("word", verdict.word());
    if (verdict instanceof Verdict.Ready ready) {
      fields.put("stage", ready.stage());
      fields.put("loads", loads(ready.loads()));
    } else if (verdict instanceof Verdict.Advance advance) {
      fields.put("stage", advance.stage());
      fields.put("loads", loads(advance.loads()));
    } else if (verdict instanceof Verdict.Hold hold) {
      fields.put("until", hold.until().toString());
    } else if (verdict instanceof Verdict.Continue goOn) {
      fields.put("until", goOn.until().toString());
    } else if (verdict instanceof Verdict.Stop stop) {
      fields.put("rest", stop.rest());
      fields.put("instruction", stop.instruction());
      fields.put("then", loads(stop.then()));
    } else if (verdict instanceof Verdict.Finish finish) {
      fields.put("then", loads(finish.then()));
    } else if (verdict instanceof Verdict.NotRecovered not) {
      fields.put("unmet", not.unmet());
    }
    return fields;
  }

  static Verdict read(Fields fields) {
    return switch (fields.text("word")) {
      case "READY" -> {
        fields.only("word", "stage", "loads");
        yield new Verdict.Ready(fields.text("stage"), loads(fields, "loads"));
      }
      case "ADVANCE" -> {
        fields.only("word", "stage", "loads");
        yield new Verdict.Advance(fields.text("stage"), loads(fields, "loads"));
      }
      case "HOLD" -> {
        fields.only("word", "until");
        yield new Verdict.Hold(fields.time("until"));
      }
      case "CONTINUE" -> {
        fields.only("word", "until");
        yield new Verdict.Continue(fields.time("until"), Agenda.EMPTY);
      }
      case "FINISH" -> {
        fields.only("word", "then");
        yield new Verdict.Finish(loads(fields, "then"));
      }
      case "STOP" -> {
        fields.only("word", "rest", "instruction", "then");
        yield new Verdict.Stop(
            fields.truth("rest"), fields.text("instruction"), loads(fields, "then"));
      }
      case "END" -> {
        fields.only("word");
        yield new Verdict.End();
      }
      case "NOT RECOVERED" -> {
        fields.only("word", "unmet");
        yield new Verdict.NotRecovered(fields.texts("unmet"));
      }
      case "DEFER" -> {
        fields.only("word");
        yield new Verdict.Defer(List.of());
      }
      default -> throw fields.unreadable("word", "is no verdict that can be followed");
    };
  }

  private static List<Map<String, Object>> loads(List<Loading> loads) {
    return loads.stream().map(EventText::loading).toList();
  }

  private static List<Loading> loads(Fields fields, String name) {
    return fields.list(name).stream().map(EventText::loading).toList();
  }
}
