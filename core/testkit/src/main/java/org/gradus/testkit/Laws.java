package org.gradus.testkit;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.gradus.library.Library;

/**
 * What must hold in every test, by any protocol, however it goes.
 *
 * <pre>{@code
 * @Property
 * void everyTestKeepsTheLaws(@ForAll("tests") TestScript test) {
 *   Laws.all().check(test);
 * }
 * }</pre>
 */
public final class Laws {

  /** Nothing but a typed refusal comes out of a session beside its answers. */
  public static final Law ANSWERED_OR_REFUSED =
      Law.of(
          "answered-or-refused",
          "Whatever is told, done or asked is answered, or refused with a typed error.",
          test -> new Watch() {});

  /** Events are only ever added. */
  public static final Law WHAT_IS_TOLD_STAYS =
      Law.of(
          "what-is-told-stays",
          "Whatever is told and not refused is kept as it was told, in order, and nothing else is.",
          test -> new KeptEvents());

  /** A refusal leaves no trace. */
  public static final Law WHAT_IS_REFUSED_CHANGES_NOTHING =
      Law.of(
          "what-is-refused-changes-nothing",
          "After a refusal the events and the decision are what they were.",
          test -> new Refusals(test));

  /** A question leaves no trace. */
  public static final Law ASKING_CHANGES_NOTHING =
      Law.of(
          "asking-changes-nothing",
          "The same question has the same answer, and neither asking nor what is tried on a copy"
              + " changes the session.",
          test -> new Questions(test));

  /** Each phase has its verdicts. */
  public static final Law A_VERDICT_BELONGS_TO_ITS_PHASE =
      Law.of(
          "a-verdict-belongs-to-its-phase",
          "A decision names the phase it is made in, its verdict is one of that phase, and nothing"
              + " is offered beside a stop.",
          test -> new Phases());

  /** No answer waits for ever. */
  public static final Law WAITING_ENDS =
      Law.of(
          "waiting-ends",
          "CONTINUE lasts until a later moment, and once the time of a MEASURE is over that same"
              + " MEASURE is no longer the answer.",
          test -> new Waiting(test));

  /** Nothing is asked for in vain. */
  public static final Law MEASURE_ASKS_FOR_WHAT_CAN_BE_READ =
      Law.of(
          "measure-asks-for-what-can-be-read",
          "MEASURE in a stage or in recovery names what to read, at once or at a later moment for"
              + " which it waits; whoever reads at once what can be read at once is not asked for"
              + " it again.",
          test -> new Asked(test));

  /** A reading is not compared with itself. */
  public static final Law A_KNOWN_CHANGE_HAS_TWO_READINGS =
      Law.of(
          "a-known-change-has-two-readings",
          "Where a decision rests on a change of a signal, or on its value some time earlier, two"
              + " readings of it were told since the stage, or recovery, began.",
          test -> new Changes());

  /** No stop is lost. */
  public static final Law A_STOP_STAYS =
      Law.of(
          "a-stop-stays",
          "A stop that holds is answered until it is followed, overridden, put right or taken back,"
              + " or a more urgent one holds; no time that passes takes it away.",
          test -> new Stops(test));

  /** A followed stop is the end of the exercise. */
  public static final Law NO_WAY_ON_AFTER_A_STOP =
      Law.of(
          "no-way-on-after-a-stop",
          "Once a stop was followed, or was what the tester decided, there is only recovery.",
          test -> new AfterStop());

  /** No reported sign is passed over. */
  public static final Law A_REPORTED_SIGN_STOPS =
      Law.of(
          "a-reported-sign-stops",
          "A sign with a rule that stops the test for it alone is answered with a stop as soon as"
              + " it is reported, in stages and in recovery.",
          test -> new StoppingSigns(test.protocol()));

  /** Nothing is left to chance. */
  public static final Law THE_SAME_EVENTS_GIVE_THE_SAME_ANSWERS =
      Law.of(
          "the-same-events-give-the-same-answers",
          "Two sessions that are told the same answer and refuse the same.",
          test -> new Twin(test));

  /** A record is the whole test. */
  public static final Law A_RECORD_GIVES_THE_TEST_BACK =
      Law.of(
          "a-record-gives-the-test-back",
          "A record that is written, read and taken up again has the same person, events and"
              + " decision, and is written the same once more.",
          test -> new Recorded(test));

  /** It matters when something was read, not when it was told. */
  public static final Law A_READING_TOLD_LATE_COUNTS =
      Law.of(
          "a-reading-told-late-counts",
          "A reading that is told somewhat later in its stage is decided on as if it had been told"
              + " in time, unless it is to be read a second time or the decision changes by itself"
              + " before it is told.",
          test -> new ToldLate(test));

  /** No test goes on for ever. */
  public static final Law WHO_FOLLOWS_IS_DONE_IN_TIME =
      Law.of(
          "who-follows-is-done-in-time",
          "Who follows every verdict as soon as it is given, whatever is read or missed, is done"
              + " within the longest test of the protocol.",
          test -> new Follower(test));

  /** Nothing is set that cannot be. */
  public static final Law LOADS_ARE_POSSIBLE =
      Law.of(
          "loads-are-possible",
          "Every load that is set, or would be by a decision or an offer, lies in the range that"
              + " the protocol gives for it.",
          test -> new SetLoads(test.protocol()));

  /** Whoever asks late misses nothing. */
  public static final Law A_LATE_QUESTION_MISSES_NOTHING =
      Law.of(
          "a-late-question-misses-nothing",
          "A stop that is answered at any moment, between two seconds too, is answered to whoever"
              + " asks later.",
          test -> new LateQuestions(test));

  /** A stop that was followed has been heard. */
  public static final Law A_FOLLOWED_STOP_NEEDS_FRESH_GROUNDS =
      Law.of(
          "a-followed-stop-needs-fresh-grounds",
          "A stop that was followed is not answered again before something it asks for was read or"
              + " reported since, unless time alone may change its answer.",
          test -> new FollowedStops(test));

  private static final Laws ALL =
      of(
          ANSWERED_OR_REFUSED,
          WHAT_IS_TOLD_STAYS,
          WHAT_IS_REFUSED_CHANGES_NOTHING,
          ASKING_CHANGES_NOTHING,
          A_VERDICT_BELONGS_TO_ITS_PHASE,
          WAITING_ENDS,
          MEASURE_ASKS_FOR_WHAT_CAN_BE_READ,
          A_KNOWN_CHANGE_HAS_TWO_READINGS,
          A_STOP_STAYS,
          NO_WAY_ON_AFTER_A_STOP,
          A_REPORTED_SIGN_STOPS,
          THE_SAME_EVENTS_GIVE_THE_SAME_ANSWERS,
          A_RECORD_GIVES_THE_TEST_BACK,
          A_READING_TOLD_LATE_COUNTS,
          WHO_FOLLOWS_IS_DONE_IN_TIME,
          LOADS_ARE_POSSIBLE,
          A_LATE_QUESTION_MISSES_NOTHING,
          A_FOLLOWED_STOP_NEEDS_FRESH_GROUNDS);

  private final List<Law> laws;

  private Laws(List<Law> laws) {
    this.laws = List.copyOf(laws);
  }

  /** All laws that hold whatever the protocol is. */
  public static Laws all() {
    return ALL;
  }

  /** Some laws, to be looked at in one play. */
  public static Laws of(Law... laws) {
    requireNonNull(laws, "laws");
    return new Laws(List.of(laws));
  }

  /**
   * A record matches the files of its test: run again with them, every event is answered as it is
   * recorded. Not among {@link #all}, since a script knows its protocol and not its files.
   *
   * @param library the files
   */
  public static Law aRecordMatchesItsFiles(Library library) {
    requireNonNull(library, "library");
    return Law.of(
        "a-record-matches-its-files",
        "Run again with the files of its test, a record has the same answers.",
        test -> new Verified(library));
  }

  /** These laws and some more. */
  public Laws and(Law... more) {
    requireNonNull(more, "more");
    return new Laws(Stream.concat(laws.stream(), Stream.of(more)).toList());
  }

  /** These laws without some. */
  public Laws without(Law... some) {
    requireNonNull(some, "some");
    List<Law> left = new ArrayList<>(laws);
    left.removeAll(List.of(some));
    return new Laws(left);
  }

  /** The single laws. */
  public List<Law> list() {
    return laws;
  }

  /**
   * Plays a script once and looks whether all of these laws hold.
   *
   * @throws LawBroken when one does not
   */
  public void check(TestScript test) {
    requireNonNull(test, "test");
    new Player(test, laws).play();
  }
}
