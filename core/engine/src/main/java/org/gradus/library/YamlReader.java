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
import org.gradus.library.YamlNode.Lost;
import org.gradus.library.YamlNode.Mapping;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.library.YamlNode.Sequence;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.MappingStartEvent;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.events.SequenceStartEvent;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.parser.ParserImpl;
import org.snakeyaml.engine.v2.scanner.StreamReader;

/**
 * Builds nodes from the event stream of a YAML parser. Depth and size are counted on the events,
 * before anything nested is built. What these files do not use, such as anchors, aliases and tags,
 * is reported and skipped, so that the rest of the file is still checked.
 */
final class YamlReader {

  private static final int MOST_LEVELS = 32;
  private static final int MOST_EVENTS = 100_000;
  static final int MOST_CHARACTERS = 1_000_000;

  /** Ends the reading of a file whose fault has been noted. */
  private static final class Refused extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Refused() {
      super("noted", null, false, false);
    }
  }

  private final SourceFile file;
  private final Problems problems;
  private final YamlPlaces places;
  private final YamlCuts cuts;
  private final Iterator<Event> events;
  private int seen;
  private int depth;

  private YamlReader(SourceFile file, Problems problems, YamlPlaces places) {
    this.file = file;
    this.problems = problems;
    this.places = places;
    this.cuts = new YamlCuts(problems);
    LoadSettings settings =
        LoadSettings.builder().setLabel(file.name()).setCodePointLimit(MOST_CHARACTERS).build();
    this.events = new ParserImpl(settings, new StreamReader(settings, file.text()));
  }

  /** The content of a file; empty when it cannot be read, which has then been noted. */
  static Optional<YamlNode> read(SourceFile file, Problems problems) {
    YamlPlaces places = new YamlPlaces(file);
    if (file.text().length() > MOST_CHARACTERS) {
      problems.add(
          places.start(),
          Code.G308,
          file.text().length() + " characters",
          Integer.toString(MOST_CHARACTERS));
      return Optional.empty();
    }
    Optional<Span> unprintable = places.firstUnprintable();
    if (unprintable.isPresent()) {
      int character = unprintable.get().text().codePointAt(0);
      problems.add(
          unprintable.get(),
          Code.G301,
          String.format("the character U+%04X has no place in a text", character),
          "take it out");
      return Optional.empty();
    }
    try {
      return Optional.of(new YamlReader(file, problems, places).document());
    } catch (Refused refused) {
      return Optional.empty();
    } catch (MarkedYamlEngineException e) {
      Span where = places.of(e);
      problems.add(where, Code.G301, YamlPlaces.problem(e), YamlPlaces.advice(e, where));
      return Optional.empty();
    } catch (YamlEngineException e) {
      problems.add(places.start(), Code.G301, YamlPlaces.problem(e), "save it as plain UTF-8 text");
      return Optional.empty();
    }
  }

  private YamlNode document() {
    next(); // the start of the stream
    Event start = next();
    if (start.getEventId() == Event.ID.StreamEnd) {
      problems.add(
          places.start(), Code.G304, "keys with values", "an empty file", "begin with format: 1");
      throw new Refused();
    }
    YamlNode content = node(next());
    next(); // the end of the document
    Event after = next();
    if (after.getEventId() != Event.ID.StreamEnd) {
      problems.add(places.of(after), Code.G307, "a second document", "keep one document in a file");
    }
    return content;
  }

  private Event next() {
    if (++seen > MOST_EVENTS) {
      refuse(
          places.start(),
          Code.G308,
          "more than " + MOST_EVENTS + " pieces",
          Integer.toString(MOST_EVENTS));
    }
    return events.next();
  }

  private YamlNode node(Event event) {
    boolean usable = isUsable(event);
    YamlNode node = content(event);
    return usable ? node : new Lost(node.span());
  }

  private YamlNode content(Event event) {
    if (event instanceof ScalarEvent scalar) {
      return scalar(scalar);
    } else if (event instanceof AliasEvent) {
      return new Lost(places.of(event));
    }
    if (++depth > MOST_LEVELS) {
      refuse(
          places.of(event),
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

  // Notes aliases, anchors and tags; of an anchor the value can still be looked at.
  private boolean isUsable(Event event) {
    if (event instanceof AliasEvent) {
      problems.add(
          places.of(event),
          Code.G307,
          "an alias",
          "write the value out; text that begins with * needs quotes");
      return false;
    }
    if (event instanceof NodeEvent node && node.getAnchor().isPresent()) {
      problems.add(
          places.of(event),
          Code.G307,
          "an anchor",
          "leave it out; text that begins with & needs quotes");
    }
    boolean tagged =
        (event instanceof ScalarEvent scalar && scalar.getTag().isPresent())
            || (event instanceof MappingStartEvent mapping && mapping.getTag().isPresent())
            || (event instanceof SequenceStartEvent sequence && sequence.getTag().isPresent());
    if (tagged) {
      problems.add(
          places.of(event),
          Code.G307,
          "a tag",
          "text that begins with ! needs quotes; for a denial write not");
    }
    return !tagged;
  }

  private Mapping mapping(MappingStartEvent start) {
    List<Entry> entries = new ArrayList<>();
    Set<String> keys = new HashSet<>();
    Event event = next();
    while (event.getEventId() != Event.ID.MappingEnd) {
      YamlNode key = node(event);
      YamlNode value = node(next());
      if (key instanceof Scalar name) {
        if (keys.add(name.value())) {
          entries.add(new Entry(name, value));
        } else {
          problems.add(name.span(), Code.G306, name.value());
        }
      } else if (!(key instanceof Lost)) {
        problems.add(key.span(), Code.G304, "a key", key.phrase(), "keys are plain words");
      }
      event = next();
    }
    boolean flow = start.getFlowStyle() == FlowStyle.FLOW;
    return new Mapping(
        places.of(start, event), flow ? cuts.mended(entries) : List.copyOf(entries), flow);
  }

  private Sequence sequence(SequenceStartEvent start) {
    List<YamlNode> items = new ArrayList<>();
    Event event = next();
    while (event.getEventId() != Event.ID.SequenceEnd) {
      items.add(node(event));
      event = next();
    }
    boolean flow = start.getFlowStyle() == FlowStyle.FLOW;
    return new Sequence(
        places.of(start, event), flow ? cuts.mendedItems(items) : List.copyOf(items));
  }

  private Scalar scalar(ScalarEvent event) {
    Span whole = places.of(event);
    ScalarStyle style = event.getScalarStyle();
    Span inner = whole;
    if (style == ScalarStyle.SINGLE_QUOTED || style == ScalarStyle.DOUBLE_QUOTED) {
      inner = new Span(file, whole.start() + 1, whole.end() - 1);
    } else if (style == ScalarStyle.LITERAL || style == ScalarStyle.FOLDED) {
      inner = new Span(file, YamlPlaces.endOfLine(whole), whole.end());
    }
    return new Scalar(inner, event.getValue(), style == ScalarStyle.PLAIN);
  }

  private void refuse(Span where, Code code, String... arguments) {
    problems.add(where, code, arguments);
    throw new Refused();
  }
}
