package org.gradus.report;

import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Language;
import org.gradus.words.Message;
import org.gradus.words.MessageKey;
import org.gradus.words.Name;

/** What a report says, in its language. */
final class Words {

  private final Language language;

  Words(Language language) {
    this.language = language;
  }

  /** The tag of the language: {@code "es"}. */
  String language() {
    return language.locale().toLanguageTag();
  }

  /** A text with what it speaks of. */
  String say(MessageKey key, Object... arguments) {
    return language.say(new Message(key, List.of(arguments)));
  }

  /** What another part of the engine says. */
  String say(Message message) {
    return language.say(message);
  }

  /** A quantity. */
  String say(Quantity quantity) {
    return quantity.in(language);
  }

  /** A date and time with the distance of its zone from UTC. */
  String date(ZonedDateTime moment) {
    String pattern = say(ReportMessage.DATE_PATTERN);
    return DateTimeFormatter.ofPattern(pattern, language.locale()).format(moment);
  }

  /** The heads of a table. */
  List<String> heads(ReportMessage... keys) {
    return List.of(keys).stream().map(language::say).toList();
  }

  /** A name of the file as people read it: {@code heart rate}. */
  String name(String id) {
    return language.say(Message.of(Joined.ALONE, new Name(id)));
  }

  /** A sentence of the file, or a name as the file writes it. */
  String text(String ofFile) {
    return language.say(Message.of(Joined.ALONE, new FileText(ofFile)));
  }

  /** From one value to another of the same unit, which stands once. */
  String range(Quantity low, Quantity high) {
    return say(ReportMessage.RANGE, Quantity.plain(low.amount()), high);
  }

  /** A text that ends like a sentence. */
  static String sentence(String text) {
    return text.endsWith(".") ? text : text + ".";
  }
}
