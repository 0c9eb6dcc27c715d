package org.gradus.examples.fleet;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.apache.flink.api.common.functions.OpenContext;
import org.apache.flink.api.common.state.BroadcastState;
import org.apache.flink.api.common.state.ListState;
import org.apache.flink.api.common.state.ListStateDescriptor;
import org.apache.flink.api.common.state.MapStateDescriptor;
import org.apache.flink.api.common.state.ReadOnlyBroadcastState;
import org.apache.flink.api.common.state.ValueState;
import org.apache.flink.api.common.state.ValueStateDescriptor;
import org.apache.flink.api.common.typeinfo.Types;
import org.apache.flink.runtime.state.FunctionInitializationContext;
import org.apache.flink.runtime.state.FunctionSnapshotContext;
import org.apache.flink.streaming.api.TimerService;
import org.apache.flink.streaming.api.checkpoint.CheckpointedFunction;
import org.apache.flink.streaming.api.functions.co.KeyedBroadcastProcessFunction;
import org.apache.flink.util.Collector;
import org.apache.flink.util.OutputTag;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.EventConflict;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.NotFound;
import org.gradus.examples.fleet.FleetAnswer.Cause;
import org.gradus.history.Json;
import org.gradus.history.LineLedger;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Session;
import org.gradus.words.Joined;
import org.gradus.words.Message;
import org.jspecify.annotations.Nullable;

/**
 * Live tests, keyed by their ids. The state of a test is the lines of its record; a session is made
 * from them when it is needed, and answers as if it had never been away.
 *
 * <p>For each test the answers come in this order, however its messages and the passing of time
 * interleave: one for its opening, one for each event, and one for each moment between them at
 * which a decision may change by itself ({@link Decision#changesAt}).
 */
final class LiveTests
    extends KeyedBroadcastProcessFunction<String, RoomMessage, ProtocolFiles, FleetAnswer>
    implements CheckpointedFunction {

  private static final long serialVersionUID = 1L;

  /** What was refused. */
  static final OutputTag<FleetRefusal> REFUSED = new OutputTag<>("refused") {};

  /** The records of tests that were closed, as {@link TestRecord#parse} reads them. */
  static final OutputTag<String> RECORDS = new OutputTag<>("records") {};

  /** Every version that a test may have, by id and version. */
  static final MapStateDescriptor<String, ProtocolFiles> VERSIONS =
      new MapStateDescriptor<>("versions", String.class, ProtocolFiles.class);

  /** The version that new tests get, by id. */
  static final MapStateDescriptor<String, String> NEWEST =
      new MapStateDescriptor<>("newest", Types.STRING, Types.STRING);

  private final List<ProtocolFiles> first;
  private final int sessionsInMemory;
  private final long silence;

  private transient ListState<String> lines;
  private transient ValueState<LiveTimes> live;
  private transient RecentSessions sessions;
  private transient Map<String, Library> libraries = new HashMap<>();

  /**
   * A function that knows these protocols from the start.
   *
   * @param first protocols that do not have to arrive in the stream
   * @param sessionsInMemory how many sessions one task keeps in memory at most, at least 1
   * @param silence how long after its last event a test is closed: its record is handed over, and
   *     its state deleted. Until then it takes events, amendments of a test that is over among them
   */
  LiveTests(List<ProtocolFiles> first, int sessionsInMemory, Duration silence) {
    if (sessionsInMemory < 1) {
      throw new IllegalArgumentException(
          "a task keeps at least 1 session in memory, not " + sessionsInMemory);
    }
    this.first = new ArrayList<>(first);
    this.sessionsInMemory = sessionsInMemory;
    this.silence = silence.toMillis();
  }

  @Override
  public void initializeState(FunctionInitializationContext context) throws Exception {
    libraries = new HashMap<>();
    BroadcastState<String, ProtocolFiles> versions =
        context.getOperatorStateStore().getBroadcastState(VERSIONS);
    BroadcastState<String, String> newest =
        context.getOperatorStateStore().getBroadcastState(NEWEST);
    for (ProtocolFiles files : first) {
      add(files, versions, newest);
    }
  }

  @Override
  public void snapshotState(FunctionSnapshotContext context) {
    // All state is Flink's own.
  }

  @Override
  public void open(OpenContext context) {
    lines = getRuntimeContext().getListState(new ListStateDescriptor<>("lines", Types.STRING));
    live = getRuntimeContext().getState(new ValueStateDescriptor<>("live", LiveTimes.class));
    sessions = new RecentSessions(sessionsInMemory);
  }

  // A bad file does no harm: the version before goes on serving new tests.
  @Override
  public void processBroadcastElement(
      ProtocolFiles files, Context context, Collector<FleetAnswer> answers) throws Exception {
    try {
      add(files, context.getBroadcastState(VERSIONS), context.getBroadcastState(NEWEST));
    } catch (GradusException refused) {
      // Every task refuses it; one says so.
      if (getRuntimeContext().getTaskInfo().getIndexOfThisSubtask() == 0) {
        String names = Json.write(files.files().keySet());
        context.output(REFUSED, FleetRefusal.of(files.id(), files.time(), names, refused));
      }
    }
  }

  private void add(
      ProtocolFiles files,
      BroadcastState<String, ProtocolFiles> versions,
      BroadcastState<String, String> newest)
      throws Exception {
    Library library = files.library();
    String version = files.version(library.protocol(files.id()));
    if (!versions.contains(version)) {
      versions.put(version, files);
      newest.put(files.id(), version);
      libraries.put(version, library);
    }
  }

  @Override
  public void processElement(
      RoomMessage message, ReadOnlyContext context, Collector<FleetAnswer> answers)
      throws Exception {
    LiveTimes known = live.value();
    try {
      if (message.kind() == RoomMessage.Kind.OPEN) {
        begin(message, known, context, answers);
      } else {
        tell(message, known, context, answers);
      }
    } catch (GradusException refused) {
      context.output(
          REFUSED, FleetRefusal.of(message.test(), message.time(), message.body(), refused));
    }
  }

  private void begin(
      RoomMessage message,
      @Nullable LiveTimes known,
      ReadOnlyContext context,
      Collector<FleetAnswer> answers)
      throws Exception {
    if (known != null) {
      throw new EventConflict(
          0, Message.of(Joined.ALONE, "the test " + message.test() + " is open already"));
    }
    String version = context.getBroadcastState(NEWEST).get(message.protocol());
    if (version == null) {
      throw new NotFound(
          Code.G604, "protocol", message.protocol(), "publish its files to the fleet first");
    }
    Protocol protocol =
        library(version, context.getBroadcastState(VERSIONS)).protocol(message.protocol());
    Person person = Json.toPerson(message.body());
    // Refuses a person of whom too little is known, before anything is kept.
    Session.open(protocol, person);
    LineLedger ledger = LineLedger.begin(protocol, person, Optional.of(message.test()), this::keep);
    Session session = sessions.of(message.test(), () -> Session.open(protocol, person, ledger));
    Decision decision = session.decide(Duration.ZERO);
    LiveTimes times =
        new LiveTimes(version, message.time(), LiveTimes.NEVER, message.time() + silence)
            .asksAt(decision.changesAt());
    answers.collect(FleetAnswer.of(message.test(), times, Cause.OPENED, decision));
    update(times, times, context.timerService());
  }

  private void tell(
      RoomMessage message,
      @Nullable LiveTimes known,
      ReadOnlyContext context,
      Collector<FleetAnswer> answers)
      throws Exception {
    if (known == null) {
      throw new NotFound(
          Code.G604,
          "live test",
          message.test(),
          "open it first; a test is closed some time after its last event");
    }
    Event event = Json.toEvent(message.body());
    Session session = session(message.test(), known, context.getBroadcastState(VERSIONS));
    // What time brings comes before an event that is later. Given out only if the event is taken:
    // it may have been refused for its time.
    List<FleetAnswer> before = new ArrayList<>();
    LiveTimes times = known;
    while (times.asksBefore(event.at())) {
      times = ask(message.test(), times, session, before::add);
    }
    Decision decision = LateEvents.tell(session, event);
    long closes = times.epoch(decision.at()) + silence;
    times = times.asksAt(decision.changesAt()).closesAt(closes);
    before.forEach(answers::collect);
    answers.collect(FleetAnswer.of(message.test(), times, Cause.TOLD, decision));
    update(known, times, context.timerService());
  }

  private static LiveTimes ask(
      String test, LiveTimes times, Session session, Consumer<FleetAnswer> answers) {
    Decision decision = session.decide(times.asking());
    answers.accept(FleetAnswer.of(test, times, Cause.TIME, decision));
    return times.asksAt(decision.changesAt());
  }

  @Override
  public void onTimer(long time, OnTimerContext context, Collector<FleetAnswer> answers)
      throws Exception {
    LiveTimes known = live.value();
    if (known == null) {
      return;
    }
    String test = context.getCurrentKey();
    try {
      LiveTimes times = known;
      while (times.timer() <= time) {
        Session session = session(test, times, context.getBroadcastState(VERSIONS));
        times = ask(test, times, session, answers::collect);
      }
      update(known, times, context.timerService());
    } catch (GradusException refused) {
      context.output(REFUSED, FleetRefusal.of(test, time, "", refused));
    }
    if (known.closes() <= time) {
      context.output(RECORDS, record());
      lines.clear();
      live.clear();
      sessions.forget(test);
    }
  }

  private void update(LiveTimes before, LiveTimes now, TimerService timers) throws Exception {
    if (before.timer() != now.timer() && before.timer() != LiveTimes.NEVER) {
      timers.deleteEventTimeTimer(before.timer());
    }
    if (before.closes() != now.closes()) {
      timers.deleteEventTimeTimer(before.closes());
    }
    if (now.timer() != LiveTimes.NEVER) {
      timers.registerEventTimeTimer(now.timer());
    }
    timers.registerEventTimeTimer(now.closes());
    live.update(now);
  }

  private Session session(
      String test, LiveTimes times, ReadOnlyBroadcastState<String, ProtocolFiles> versions)
      throws Exception {
    Library library = library(times.protocol(), versions);
    return sessions.of(test, () -> again(test, library));
  }

  private Session again(String test, Library library) {
    String record = record();
    String last = record.substring(record.lastIndexOf('\n', record.length() - 2) + 1).strip();
    return TestRecord.parse(test, record).resume(library, LineLedger.after(last, this::keep));
  }

  private Library library(String version, ReadOnlyBroadcastState<String, ProtocolFiles> versions)
      throws Exception {
    Library library = libraries.get(version);
    if (library == null) {
      library = versions.get(version).library();
      libraries.put(version, library);
    }
    return library;
  }

  // The state is that of the test of the message or timer at hand.
  private void keep(String line) {
    try {
      lines.add(line);
    } catch (Exception lost) {
      throw new IllegalStateException("the state cannot take a line; the job has to restart", lost);
    }
  }

  private String record() {
    StringBuilder text = new StringBuilder();
    try {
      for (String line : lines.get()) {
        text.append(line).append('\n');
      }
    } catch (Exception lost) {
      throw new IllegalStateException("the state cannot be read; the job has to restart", lost);
    }
    return text.toString();
  }
}
