package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Locale;
import java.util.ResourceBundle;
import org.gradus.words.Message;
import org.gradus.words.MessageKey;

/**
 * Everything that can be wrong, with a stable code. The number never changes its meaning; the
 * English words may be improved.
 *
 * <p>G1xx: a rule text does not parse. G2xx: names, kinds and units. G3xx: the shape of a file.
 * G4xx: what a loaded protocol guarantees. G5xx: readings. G6xx: use of a session or a library.
 */
public enum Code implements MessageKey {
  /** Something else was expected here. */
  G101,
  /** A character that the language does not use. */
  G102,
  /** Two comparisons in a row. */
  G103,
  /** A bracket without its partner. */
  G104,
  /** The text is longer or deeper than any readable rule. */
  G105,
  /** A number that a computer cannot hold. */
  G106,
  /** The text is empty. */
  G107,

  /** A name that is not known here. */
  G201,
  /** A unit that does not exist. */
  G202,
  /** A function that does not exist. */
  G203,
  /** A comparison of two kinds. */
  G204,
  /** A sum of two kinds. */
  G205,
  /** A product or quotient that is no known kind. */
  G206,
  /** A value where a condition is needed. */
  G207,
  /** A condition where a value is needed. */
  G208,
  /** A conversion to a unit of another kind. */
  G209,
  /** A plain number is needed. */
  G210,
  /** A word that is not among the options. */
  G211,
  /** Too few or too many arguments. */
  G212,
  /** An argument that must be the name of something. */
  G213,
  /** An argument that must be known when the file is read. */
  G214,
  /** A definition that rests on itself. */
  G215,
  /** Two branches of different kinds. */
  G216,

  /** Not YAML. */
  G301,
  /** A key that does not exist here. */
  G302,
  /** A key that is needed. */
  G303,
  /** Another shape is needed. */
  G304,
  /** A value that does not fit. */
  G305,
  /** The same key or id twice. */
  G306,
  /** YAML features that are not used. */
  G307,
  /** Too large or too deep. */
  G308,
  /** A reference to something that does not exist. */
  G309,
  /** A format this reader does not know. */
  G310,
  /** YAML took a part of a rule's text away. */
  G311,
  /** Two included sets define the same. */
  G312,

  /** A list that may end without a verdict. */
  G401,
  /** A rule behind one that always holds. */
  G402,
  /** An action that does not belong into this group. */
  G403,
  /** A way back. */
  G404,
  /** A rule that may stay unknown. */
  G405,
  /** A rule on a reading that nobody takes. */
  G406,
  /** A stage that no test can reach. */
  G407,
  /** A test that is guided by heart rate but takes people whose heart is slowed. */
  G408,
  /** A load whose oxygen cost is not known. */
  G409,

  /** A name that has no meaning where the rule is looked at. */
  G410,
  /** A condition that no readings can fulfil. */
  G411,
  /** A load that may lie outside its range. */
  G412,
  /** A change of a load that a stage cannot make. */
  G413,

  /** A unit of another kind. */
  G501,
  /** A value no person can have. */
  G502,
  /** An event before the one that was told last. */
  G503,
  /** Taken after it was told. */
  G504,
  /** Diastolic not below systolic. */
  G505,
  /** A signal the protocol does not know. */
  G506,
  /** A second reading of the same. */
  G507,
  /** A word or scale that is not offered. */
  G508,
  /** A reading that comes too late to count. */
  G509,
  /** A reading in a phase that has no use for it. */
  G510,
  /** A text that a record has no room for. */
  G511,

  /** Something happened since the decision. */
  G601,
  /** Not a way on from here. */
  G602,
  /** A setting that does not exist or cannot have this value. */
  G603,
  /** Nothing by that name. */
  G604,
  /** A second thread at the same time. */
  G605,
  /** Facts about the person that the protocol needs. */
  G606,
  /** A journal that cannot be written or read. */
  G607,
  /** A record whose protocol means something else in this library. */
  G608,
  /** A record that is damaged. */
  G609,
  /** A journal that is open elsewhere. */
  G610,
  /** A journal that was closed. */
  G611,
  /** No room for a journal. */
  G612,
  /** A folder or a file that is not there. */
  G613,
  /** A new journal where there is a file already. */
  G614,
  /** A line of a record that says what no record says. */
  G615,
  /** An event of a record that a live session would have refused. */
  G620,
  /** An event with a number that is not its own. */
  G621,
  /** A text of JSON that says something else than what was to be read. */
  G622,
  /** A value that a method cannot take. */
  G623,
  /** Something from outside that cannot be read. */
  G624,
  /** Loading was stopped. */
  G625;

  // What to do about it is a message of its own.
  private record Help(Code of) implements MessageKey {
    @Override
    public String name() {
      return of.name() + ".help";
    }

    @Override
    public String pattern(Locale language) {
      return words(language).getString(name());
    }
  }

  private static ResourceBundle words(Locale language) {
    return ResourceBundle.getBundle("org.gradus.diagnostic.Code", language);
  }

  @Override
  public String pattern(Locale language) {
    requireNonNull(language, "language");
    return words(language).getString(name());
  }

  /** What to do about it, as a message with the same arguments; its text may be empty. */
  public MessageKey help() {
    return new Help(this);
  }

  /** What is wrong, in English, with the arguments filled in. */
  public String message(List<String> arguments) {
    return Message.of(this, arguments.toArray()).toString();
  }

  /** What to do about it, in English, with the arguments filled in; may be empty. */
  public String help(List<String> arguments) {
    return Message.of(help(), arguments.toArray()).toString();
  }
}
