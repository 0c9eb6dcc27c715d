package org.gradus.diagnostic;

import java.util.List;

/**
 * Everything that can be wrong, with a stable code. The number never changes its meaning; the
 * English words may be improved.
 *
 * <p>G1xx: a rule text does not parse. G2xx: names, kinds and units. G3xx: the shape of a file.
 * G4xx: what a loaded protocol guarantees. G5xx: readings. G6xx: use of a session or a library.
 */
public enum Code {
  /** Something else was expected here. */
  G101("expected {0}, found {1}", "{2}"),
  /** A character that the language does not use. */
  G102("{0} has no meaning in a rule", "{1}"),
  /** Two comparisons in a row. */
  G103("comparisons do not chain", "write x between a and b, or join two comparisons with and"),
  /** A bracket without its partner. */
  G104("{0} has no partner", "{1}"),
  /** The text is longer or deeper than any readable rule. */
  G105("this text has {0}; at most {1} are allowed", "{2}"),
  /** A number that a computer cannot hold. */
  G106("the number {0} is too large", "check the digits"),
  /** The text is empty. */
  G107("expected {0}, found nothing", "{1}"),

  /** A name that is not known here. */
  G201("{0} is not known here", "{1}"),
  /** A unit that does not exist. */
  G202("there is no unit {0}", "{1}"),
  /** A function that does not exist. */
  G203("there is no function {0}", "{1}"),
  /** A comparison of two kinds. */
  G204("{0} cannot be compared with {1}", "give both sides in units of one kind, such as {2}"),
  /** A sum of two kinds. */
  G205(
      "{0} and {1} cannot be added or subtracted",
      "give both in units of one kind, or turn each into a plain number with: in UNIT"),
  /** A product or quotient that is no known kind. */
  G206(
      "this product is {0}, which is no kind",
      "let kinds cancel, or turn each value into a plain number with: in UNIT"),
  /** A value where a condition is needed. */
  G207("expected a condition, found {0}", "compare it with something"),
  /** A condition where a value is needed. */
  G208("expected a value, found {0}", "{1}"),
  /** A conversion to a unit of another kind. */
  G209("{0} cannot be given in {1}", "{1} measures {2}"),
  /** A plain number is needed. */
  G210("{0} needs a plain number here, found {1}", "take the number out with: in UNIT"),
  /** A word that is not among the options. */
  G211("{0} is not an option of {1}", "{2}"),
  /** Too few or too many arguments. */
  G212("{0} takes {1}, found {2}", "write {3}"),
  /** An argument that must be the name of something. */
  G213("{0} needs the name of {1} here", "{2}"),
  /** An argument that must be known when the file is read. */
  G214("{0} needs {1} that is fixed when the file is read", "write it out, or use a setting"),
  /** A definition that rests on itself. */
  G215("{0} is defined in terms of itself", "break the circle: {1}"),
  /** Two branches of different kinds. */
  G216("one branch is {0}, the other {1}", "both branches must be of one kind"),

  /** Not YAML. */
  G301("this is not YAML: {0}", "{1}"),
  /** A key that does not exist here. */
  G302("{0} is not a key of {1}", "{2}"),
  /** A key that is needed. */
  G303("{0} has no {1}", "add {1}: ..."),
  /** Another shape is needed. */
  G304("expected {0}, found {1}", "{2}"),
  /** A value that does not fit. */
  G305("{0} is not {1}", "{2}"),
  /** The same key or id twice. */
  G306("{0} is given twice", "keep one of them"),
  /** YAML features that are not used. */
  G307("{0} cannot be used in these files", "{1}"),
  /** Too large or too deep. */
  G308("this file has {0}; at most {1} are allowed", "split it"),
  /** A reference to something that does not exist. */
  G309("there is no {0} called {1}", "{2}"),
  /** A format this reader does not know. */
  G310("format {0} is not known to this reader, which knows format {1}", "use a newer Gradus"),
  /** YAML took a part of a rule's text away. */
  G311("{0}", "{1}"),
  /** Two included sets define the same. */
  G312("{0} is defined by {1} and by {2}", "define it in this file, or include only one of them"),

  /** A list that may end without a verdict. */
  G401(
      "this list can end without a verdict",
      "close it with a rule without a condition, such as: advance"),
  /** A rule behind one that always holds. */
  G402("this rule is never reached", "the rule {0} before it always applies"),
  /** An action that does not belong into this group. */
  G403("{0} cannot be used in {1}", "{1} allows {2}"),
  /** A way back. */
  G404("advance to {0} would go back", "advance only to a stage that comes later in the file"),
  /** A rule that may stay unknown. */
  G405("this rule may stay unknown in {0} although every reading is taken", "{1}"),
  /** A rule on a reading that nobody takes. */
  G406(
      "{0} is not measured in {1} before this rule is evaluated",
      "let a measure line read it in time; a look back needs a reading at just that time before"),
  /** A stage that no test can reach. */
  G407("no test can reach {0}", "advance to it, or leave it out"),
  /** A test that is guided by heart rate but takes people whose heart is slowed. */
  G408(
      "heart rate guides this test, but it takes people whose medicine slows the heart",
      "add to before: defer when lowers_heart_rate"),
  /** A load whose oxygen cost is not known. */
  G409("{0} needs {1}, which the stage {2} does not set", "{3}"),

  /** A name that has no meaning where the rule is looked at. */
  G410("{0} is not known {1}", "{2}"),
  /** A condition that no readings can fulfil. */
  G411("this rule can never apply", "check its limits: {0}"),
  /** A load that may lie outside its range. */
  G412("{0} could be {1}; possible is {2}", "{3}"),
  /** A change of a load that a stage cannot make. */
  G413("{0} cannot change {1} at its end: {2}", "{3}"),

  /** A unit of another kind. */
  G501("{0} cannot be {1}: it is measured in {2}", "enter it in that unit"),
  /** A value no person can have. */
  G502("{0} of {1} is outside what is possible, {2}", "read it again"),
  /** An event before the one that was told last. */
  G503(
      "{0} at {1} is before the last event, at {2}",
      "tell events in order, and give the time it was taken"),
  /** Taken after it was told. */
  G504("{0} was taken at {1}, after it was told at {2}", "check the two times"),
  /** Diastolic not below systolic. */
  G505("{0} of {1} is not below {2}", "check for swapped numbers"),
  /** A signal the protocol does not know. */
  G506("this protocol does not know {0}; {1} cannot be used", "{2}"),
  /** A second reading of the same. */
  G507(
      "{0} of {1} is a second reading of one moment; already recorded: {2}",
      "amend that event if its reading is wrong, or give the time at which this one was taken"),
  /** A word or scale that is not offered. */
  G508("{0} cannot be {1}", "{2}"),
  /** A reading that comes too late to count. */
  G509(
      "{0} taken at {1} belongs to a part of the test that ended at {2}",
      "keep it outside the record; it cannot change the test any more"),
  /** A reading in a phase that has no use for it. */
  G510("{0} cannot be told {1}", "{2}"),
  /** A text that a record has no room for. */
  G511("{0} has {1} characters; there is room for {2}", "say it in fewer words"),

  /** Something happened since the decision. */
  G601("the decision of {0} is outdated: {1}", "ask again and follow the new decision"),
  /** Not a way on from here. */
  G602("{0} is not possible {1}", "{2}"),
  /** A setting that does not exist or cannot have this value. */
  G603("the setting {0} cannot be {1}", "{2}"),
  /** Nothing by that name. */
  G604("there is no {0} called {1}", "{2}"),
  /** A second thread at the same time. */
  G605(
      "thread {0} told the session an event while thread {1} was telling it one",
      "let the threads take turns, and tell the event again"),
  /** Facts about the person that the protocol needs. */
  G606("{0} is not known of this person, and {1} needs it", "add it to the person"),
  /** A journal that cannot be written or read. */
  G607("the journal {0} failed: {1}", "check the file, its folder and its disk, and tell it again"),
  /** A record whose protocol means something else in this library. */
  G608("the record was made with {0}, and this library has {1}, which differs in {2}", "{3}"),
  /** A record that is damaged. */
  G609("line {1} of {0} is damaged", "{2}"),
  /** A journal that is open elsewhere. */
  G610("the journal {0} is in use by {1}", "close it there first; two would overwrite each other"),
  /** A journal that was closed. */
  G611("the journal {0} is closed: {1}", "reopen it and tell the event again"),
  /** No room for a journal. */
  G612("no space is left for the journal {0}: {1}", "make room and tell it again"),
  /** A folder or a file that is not there. */
  G613("the journal {0} cannot be opened: {1}", "create the folder, or check the name"),
  /** A new journal where there is a file already. */
  G614("the journal {0} cannot be created: {1}", "choose another name, or reopen the journal"),
  /** A line of a record that says what no record says. */
  G615(
      "line {1} of {0} cannot be read: {2} {3}",
      "the record was changed, or made by another version: {4}"),
  /** An event of a record that a live session would have refused. */
  G620(
      "event {0} of the record cannot have happened with {1}: {2}",
      "the record was changed, or made by another version: use the events before it"),
  /** An event with a number that is not its own. */
  G621(
      "this cannot be event {0}: {1}",
      "read the events of the session, and tell it with the next number if it still holds"),
  /** A text of JSON that says something else than what was to be read. */
  G622("this is no {0} in JSON: {1}", "Json.schemas describes what is read"),
  /** A value that a method cannot take. */
  G623("{0} cannot be {1}", "{2}"),
  /** Something from outside that cannot be read. */
  G624("{0} cannot be read: {1}", "{2}");

  private final String message;
  private final String help;

  Code(String message, String help) {
    this.message = message;
    this.help = help;
  }

  /** What is wrong, in English, with the arguments filled in. */
  public String message(List<String> arguments) {
    return fill(message, arguments);
  }

  /** What to do about it, in English, with the arguments filled in; may be empty. */
  public String help(List<String> arguments) {
    return fill(help, arguments);
  }

  private static String fill(String pattern, List<String> arguments) {
    StringBuilder filled = new StringBuilder();
    for (int i = 0; i < pattern.length(); i++) {
      char c = pattern.charAt(i);
      if (c == '{') {
        int argument = pattern.charAt(i + 1) - '0';
        filled.append(argument < arguments.size() ? arguments.get(argument) : "");
        i += 2;
      } else {
        filled.append(c);
      }
    }
    return filled.toString();
  }
}
