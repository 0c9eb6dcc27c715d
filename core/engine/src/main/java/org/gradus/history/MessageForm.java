package org.gradus.history;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.knowledge.ResultMessage;
import org.gradus.rule.answer.Gap;
import org.gradus.session.SessionMessage;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;
import org.gradus.words.MessageKey;
import org.gradus.words.Name;

/**
 * Messages as JSON: the code, what it speaks of, and the English text for whoever only shows it.
 * The text is not read back; it follows from the rest.
 */
final class MessageForm {

  private static final Map<String, MessageKey> KEYS =
      Stream.<MessageKey[]>of(
              ResultMessage.values(),
              SessionMessage.values(),
              Joined.values(),
              Gap.Cause.values(),
              Code.values())
          .flatMap(Stream::of)
          .collect(Collectors.toUnmodifiableMap(MessageForm::code, key -> key));

  static final Form<Message> MESSAGE =
      Form.of(
          MessageForm::written,
          (in, name) -> read(in.fields(name)),
          Form.described(
              Lines.map(
                  "text",
                  Lines.map("type", "string", "description", "in English; it is not read"),
                  "code",
                  Lines.map("type", "string"),
                  "with",
                  Lines.map("type", "array", "items", Lines.map("type", "object"))),
              List.of("text", "code")));

  /** A message; a text that is in no language stands for itself, as records of old have it. */
  static final Form<Message> MESSAGE_OR_TEXT =
      Form.of(
          message -> isText(message) ? message.arguments().get(0) : written(message),
          (in, name) ->
              in.isText(name) ? Message.of(Joined.ALONE, in.text(name)) : read(in.fields(name)),
          Lines.map("oneOf", List.of(Lines.map("type", "string"), MESSAGE.schema())));

  private MessageForm() {}

  private static boolean isText(Message message) {
    return message.key() == Joined.ALONE && message.arguments().get(0) instanceof String;
  }

  private static String code(MessageKey key) {
    return ((Enum<?>) key).getDeclaringClass().getSimpleName() + "." + key.name();
  }

  private static Map<String, Object> written(Message message) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("text", message.toString());
    fields.put("code", code(message.key()));
    if (!message.arguments().isEmpty()) {
      fields.put("with", message.arguments().stream().map(MessageForm::argument).toList());
    }
    return fields;
  }

  private static Object argument(Object argument) {
    if (argument instanceof Message message) {
      return written(message);
    } else if (argument instanceof Quantity quantity) {
      return Form.QUANTITY.write(quantity);
    } else if (argument instanceof Name name) {
      return Lines.map("name", name.id());
    } else if (argument instanceof FileText text) {
      return Lines.map("file", text.text());
    } else if (argument instanceof Integer count) {
      return Lines.map("count", count);
    } else if (argument instanceof List<?> list) {
      return Lines.map("list", list.stream().map(MessageForm::argument).toList());
    }
    return Lines.map("as", argument);
  }

  private static Message read(Fields fields) {
    fields.only("text", "code", "with");
    fields.text("text");
    MessageKey key = KEYS.get(fields.text("code"));
    if (key == null) {
      throw fields.unreadable("code", "is no code of a message");
    }
    return new Message(
        key, fields.has("with") ? fields.each("with", MessageForm::argument) : List.of());
  }

  private static Object argument(Fields in, String name) {
    Fields fields = in.fields(name);
    if (fields.has("code")) {
      return read(fields);
    } else if (fields.has("unit")) {
      return Form.QUANTITY.read(in, name);
    } else if (fields.has("name")) {
      fields.only("name");
      return new Name(fields.text("name"));
    } else if (fields.has("file")) {
      fields.only("file");
      return new FileText(fields.text("file"));
    } else if (fields.has("count")) {
      fields.only("count");
      return fields.whole("count");
    } else if (fields.has("list")) {
      fields.only("list");
      return new ArrayList<>(fields.each("list", MessageForm::argument));
    }
    fields.only("as");
    return fields.text("as");
  }
}
