package org.gradus.library;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Mapping;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.library.YamlNode.Sequence;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.MappingStartEvent;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.events.SequenceStartEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

/**
 * Builds nodes from the event stream of a YAML parser. Depth and size are counted on the events,
 * before anything nested is built, and anchors, aliases and tags are refused.
 */
final class YamlReader {

  private static final int MOST_LEVELS = 32;
  private static final int MOST_EVENTS = 100_000;
  private static final int MOST_CHARACTERS = 1_000_000;

  /** Ends the reading of a file whose fault has been noted. */
  private static final class Refused extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Refused() {
      super("noted", null, false, false);
    }
  }

  private final SourceFile file;
  private final Problems problems;
  private final Iterator<Event> events;
  private final boolean plainText;
  private int seen;
  private int depth;

  private YamlReader(SourceFile file, Problems problems) {
    this.file = file;
    this.problems = problems;
    this.plainText = file.text().codePointCount(0, file.text().length()) == file.text().length();
    LoadSettings settings =
        LoadSettings.builder().setLabel(file.name()).setCodePointLimit(MOST_CHARACTERS).build();
    this.events = new Parse(settings).parseString(file.text()).iterator();
  }

  /** The content of a file; empty when it cannot be read, which has then been noted. */
  static Optional<YamlNode> read(SourceFile file, Problems problems) {
    if (file.text().length() > MOST_CHARACTERS) {
      problems.add(
          new Span(file, 0, 0),
          Code.G308,
          file.text().length() + " characters",
          Integer.toString(MOST_CHARACTERS));
      return Optional.empty();
    }
    try {
      return Optional.of(new YamlReader(file, problems).document());
    } catch (Refused refused) {
      return Optional.empty();
    } catch (MarkedYamlEngineException e) {
      problems.add(
          at(file, e),
          Code.G301,
          oneLine(e.getProblem()),
          "look at the indentation, and put texts with \": \" or \" #\" in them in quotes");
      return Optional.empty();
    } catch (YamlEngineException e) {
      problems.add(
          new Span(file, 0, 0),
          Code.G301,
          oneLine(String.valueOf(e.getMessage())),
          "save it as plain UTF-8 text");
      return Optional.empty();
    }
  }

  private static Span at(SourceFile file, MarkedYamlEngineException e) {
    int codePoints = e.getProblemMark().map(Mark::getIndex).orElse(0);
    int length = file.text().codePointCount(0, file.text().length());
    int offset = file.text().offsetByCodePoints(0, Math.min(codePoints, length));
    return new Span(file, offset, offset);
  }

  private static String oneLine(String message) {
    return message.lines().findFirst().orElse("").strip();
  }

  private YamlNode document() {
    expect(Event.ID.StreamStart);
    if (peekIsEnd()) {
      problems.add(
          new Span(file, 0, 0),
          Code.G304,
          "keys with values",
          "an empty file",
          "begin with format: 1");
      throw new Refused();
    }
    YamlNode content = node(next());
    expect(Event.ID.DocumentEnd);
    Event after = next();
    if (after.getEventId() != Event.ID.StreamEnd) {
      refuse(span(after), Code.G307, "a second document", "keep one document in a file");
    }
    return content;
  }

  private boolean peekIsEnd() {
    return next().getEventId() == Event.ID.StreamEnd;
  }

  private void expect(Event.ID id) {
    Event event = next();
    if (event.getEventId() != id) {
      refuse(span(event), Code.G301, "unexpected " + event.getEventId(), "look at the indentation");
    }
  }

  private Event next() {
    if (++seen > MOST_EVENTS) {
      refuse(
          new Span(file, 0, 0),
          Code.G308,
          "more than " + MOST_EVENTS + " pieces",
          Integer.toString(MOST_EVENTS));
    }
    return events.next();
  }

  private YamlNode node(Event event) {
    refuseReferences(event);
    if (event instanceof ScalarEvent scalar) {
      return scalar(scalar);
    }
    if (++depth > MOST_LEVELS) {
      refuse(
          span(event),
          Code.G308,
          "more than " + MOST_LEVELS + " levels",
          Integer.toString(MOST_LEVELS));
    }
    YamlNode node =
        event instanceof MappingStartEvent start
            ? mapping(start)
            : sequence((SequenceStartEvent) event);
    depth--;
    return node;
  }

  private void refuseReferences(Event event) {
    if (event instanceof AliasEvent) {
      refuse(
          span(event),
          Code.G307,
          "an alias",
          "write the value out; text that begins with * needs quotes");
    }
    if (event instanceof NodeEvent node && node.getAnchor().isPresent()) {
      refuse(
          span(event),
          Code.G307,
          "an anchor",
          "leave it out; text that begins with & needs quotes");
    }
    boolean tagged =
        (event instanceof ScalarEvent scalar && scalar.getTag().isPresent())
            || (event instanceof MappingStartEvent mapping && mapping.getTag().isPresent())
            || (event instanceof SequenceStartEvent sequence && sequence.getTag().isPresent());
    if (tagged) {
      refuse(
          span(event),
          Code.G307,
          "a tag",
          "text that begins with ! needs quotes; for a denial write not");
    }
  }

  private Mapping mapping(MappingStartEvent start) {
    List<Entry> entries = new ArrayList<>();
    Set<String> keys = new HashSet<>();
    Event event = next();
    while (event.getEventId() != Event.ID.MappingEnd) {
      if (!(node(event) instanceof Scalar key)) {
        refuse(
            span(event), Code.G304, "a key", "a list or keys with values", "keys are plain words");
        throw new Refused();
      }
      if (!keys.add(key.value())) {
        problems.add(key.span(), Code.G306, key.value());
      }
      entries.add(new Entry(key, node(next())));
      event = next();
    }
    return new Mapping(
        span(start, event), List.copyOf(entries), start.getFlowStyle() == FlowStyle.FLOW);
  }

  private Sequence sequence(SequenceStartEvent start) {
    List<YamlNode> items = new ArrayList<>();
    Event event = next();
    while (event.getEventId() != Event.ID.SequenceEnd) {
      items.add(node(event));
      event = next();
    }
    return new Sequence(span(start, event), List.copyOf(items));
  }

  private Scalar scalar(ScalarEvent event) {
    Span whole = span(event);
    ScalarStyle style = event.getScalarStyle();
    Span inner = whole;
    if (style == ScalarStyle.SINGLE_QUOTED || style == ScalarStyle.DOUBLE_QUOTED) {
      inner = new Span(file, whole.start() + 1, whole.end() - 1);
    } else if (style == ScalarStyle.LITERAL || style == ScalarStyle.FOLDED) {
      int header = whole.text().indexOf('\n');
      inner = new Span(file, header < 0 ? whole.end() : whole.start() + header + 1, whole.end());
    }
    return new Scalar(inner, event.getValue(), style == ScalarStyle.PLAIN);
  }

  private void refuse(Span where, Code code, String... arguments) {
    problems.add(where, code, arguments);
    throw new Refused();
  }

  private Span span(Event event) {
    return span(event, event);
  }

  private Span span(Event first, Event last) {
    int start = first.getStartMark().map(Mark::getIndex).orElse(0);
    int end = last.getEndMark().map(Mark::getIndex).orElse(start);
    return new Span(file, offset(start), Math.max(offset(start), offset(end)));
  }

  // The parser counts code points, the file counts chars.
  private int offset(int codePoints) {
    return plainText ? codePoints : file.text().offsetByCodePoints(0, codePoints);
  }
}
