package org.gradus.history;

import java.util.List;
import java.util.Map;
import org.gradus.session.Loading;
import org.gradus.session.Verdict;

/** Verdicts that were acted upon as fields of a line, and back; what only informs is left out. */
final class VerdictText {

  private static final Verdict.Visitor<Map<String, Object>> WRITER = new Writer();

  private VerdictText() {}

  static Map<String, Object> write(Verdict verdict) {
    Map<String, Object> fields = Lines.map("word", verdict.word());
    fields.putAll(verdict.accept(WRITER));
    return fields;
  }

  /** What each verdict has beside its word. */
  private static final class Writer implements Verdict.Visitor<Map<String, Object>> {
    @Override
    public Map<String, Object> ready(Verdict.Ready ready) {
      return Lines.map("stage", ready.stage(), "loads", loads(ready.loads()));
    }

    @Override
    public Map<String, Object> goOn(Verdict.Continue goOn) {
      return Lines.map("until", goOn.until().toString());
    }

    @Override
    public Map<String, Object> hold(Verdict.Hold hold) {
      return Lines.map("until", hold.until().toString());
    }

    @Override
    public Map<String, Object> advance(Verdict.Advance advance) {
      return Lines.map("stage", advance.stage(), "loads", loads(advance.loads()));
    }

    @Override
    public Map<String, Object> finish(Verdict.Finish finish) {
      return Lines.map("then", loads(finish.then()));
    }

    @Override
    public Map<String, Object> stop(Verdict.Stop stop) {
      return Lines.map(
          "rest", stop.rest(), "instruction", stop.instruction(), "then", loads(stop.then()));
    }

    @Override
    public Map<String, Object> notRecovered(Verdict.NotRecovered notRecovered) {
      return Lines.map("unmet", notRecovered.unmet());
    }

    @Override
    public Map<String, Object> defer(Verdict.Defer verdict) {
      return Map.of();
    }

    @Override
    public Map<String, Object> measure(Verdict.Measure verdict) {
      return Map.of();
    }

    @Override
    public Map<String, Object> end(Verdict.End verdict) {
      return Map.of();
    }

    @Override
    public Map<String, Object> over(Verdict.Over verdict) {
      return Map.of();
    }
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
        yield new Verdict.Continue(fields.time("until"));
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
