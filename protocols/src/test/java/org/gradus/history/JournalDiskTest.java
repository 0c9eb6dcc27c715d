package org.gradus.history;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.unit.Quantities;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A disk that fails: nothing half written is read back, and what was refused can be told again. */
class JournalDiskTest {

  private static final Protocol WALK = Bundled.library().protocol("graded-walk-standard");
  private static final Person INES =
      Person.builder()
          .age(46)
          .sex(Person.Sex.FEMALE)
          .mass(Quantities.kg(71))
          .cleared(true)
          .lowersHeartRate(false)
          .build();
  private static final Title TITLE = Title.of(WALK, INES, Optional.empty());
  private static final String HEAD = Lines.sealed(TITLE.write(), Lines.FIRST);

  @TempDir private Path folder;

  /** A disk with room for so many bytes, on which nothing can be cut off while it is stuck. */
  private static final class SmallDisk implements Storage {

    private final Storage disk;
    private long room;
    private boolean stuck;

    private SmallDisk(Storage disk, long room) {
      this.disk = disk;
      this.room = room;
    }

    @Override
    public boolean isInPlace() throws IOException {
      return disk.isInPlace();
    }

    @Override
    public long length() throws IOException {
      return disk.length();
    }

    @Override
    public void append(byte[] bytes) throws IOException {
      int fits = (int) Math.min(bytes.length, room - disk.length());
      disk.append(Arrays.copyOf(bytes, fits));
      if (fits < bytes.length) {
        throw new IOException("No space left on device");
      }
    }

    @Override
    public void cutTo(long length) throws IOException {
      if (stuck) {
        throw new IOException("Input/output error");
      }
      disk.cutTo(length);
    }

    @Override
    public void close() throws IOException {
      disk.close();
    }
  }

  private static void fails(Code code, ThrowingCallable step) {
    assertThatThrownBy(step)
        .isInstanceOfSatisfying(
            JournalFailed.class,
            failed -> {
              assertThat(failed.code()).isEqualTo(code);
              assertThat(failed).hasCauseInstanceOf(IOException.class);
            });
  }

  private static void rest(Session session) {
    session.record(Duration.ZERO, Readings.resting(Readings.heartRate(68)));
  }

  @Test
  void aLineThatDoesNotFitHasNotHappenedAndCanBeToldAgain() throws IOException {
    int line = firstLine().length();
    for (int fits = 0; fits < line; fits += 11) {
      for (boolean stuck : new boolean[] {false, true}) {
        Path file = folder.resolve(fits + "-" + stuck + ".jsonl");
        fill(file, HEAD.length() + 1 + fits, stuck);
        assertThat(Files.readString(file)).isEqualTo(HEAD + "\n" + firstLine());
      }
    }
  }

  private static String firstLine() {
    Session session = Session.open(WALK, INES);
    rest(session);
    String text = TestRecord.of(session, Optional.empty()).text();
    return text.substring(text.indexOf('\n') + 1);
  }

  private static void fill(Path file, long room, boolean stuck) throws IOException {
    SmallDisk disk = new SmallDisk(LocalFile.create(file), room);
    try (Journal journal = Journal.create(file, TITLE, path -> disk)) {
      Session session = Session.open(WALK, INES, journal);
      disk.stuck = stuck;
      fails(Code.G612, () -> rest(session));
      assertThat(session.events()).isEmpty();
      if (!stuck) {
        assertThat(Files.readString(file)).isEqualTo(HEAD + "\n");
      }
      disk.stuck = false;
      disk.room = Long.MAX_VALUE;
      rest(session);
    }
  }

  @Test
  void aFullDiskAtTheStartLeavesNoFile() throws IOException {
    Path file = folder.resolve("walk.jsonl");
    for (int room = 0; room <= HEAD.length(); room += 100) {
      int fits = room;
      fails(
          Code.G612,
          () -> Journal.create(file, TITLE, path -> new SmallDisk(LocalFile.create(path), fits)));
      assertThat(files()).isEmpty();
    }
    Journal.create(file, WALK, INES, Optional.empty()).close();
    assertThat(files()).containsExactly("walk.jsonl");
  }

  private List<String> files() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(path -> path.getFileName().toString()).toList();
    }
  }

  @Test
  void anEmptyFileIsNoObstacleAndAnyOtherOneIs() throws IOException {
    Path file = Files.createFile(folder.resolve("walk.jsonl"));
    Journal.create(file, WALK, INES, Optional.empty()).close();
    fails(Code.G614, () -> Journal.create(file, WALK, INES, Optional.empty()));
    assertThat(Files.readString(file)).isEqualTo(HEAD + "\n");
  }

  @Test
  void whatIsMissingIsNamed() {
    Path nowhere = folder.resolve("nowhere/walk.jsonl");
    fails(Code.G613, () -> Journal.create(nowhere, WALK, INES, Optional.empty()));
    fails(Code.G613, () -> Journal.reopen(nowhere, Bundled.library()));
    fails(Code.G613, () -> Journal.reopen(folder.resolve("no.jsonl"), Bundled.library()));
    fails(Code.G607, () -> Journal.reopen(folder, Bundled.library()));
    fails(Code.G607, () -> Journal.create(folder, WALK, INES, Optional.empty()));
  }

  @Test
  void aClosedJournalSaysThatItIsClosed() throws IOException {
    Path file = folder.resolve("walk.jsonl");
    Journal journal = Journal.create(file, WALK, INES, Optional.empty());
    Session session = Session.open(WALK, INES, journal);
    journal.close();
    journal.close();
    assertThatThrownBy(() -> rest(session))
        .isInstanceOfSatisfying(
            JournalFailed.class, failed -> assertThat(failed.code()).isEqualTo(Code.G611));
    assertThat(session.events()).isEmpty();
    assertThat(Files.readString(file)).isEqualTo(HEAD + "\n");
  }

  @Test
  void whatSomethingElseChangedIsNotWrittenOver() throws IOException {
    Path file = folder.resolve("walk.jsonl");
    try (Journal journal = Journal.create(file, WALK, INES, Optional.empty())) {
      Session session = Session.open(WALK, INES, journal);
      String changed = HEAD + "\nnote: good\n";
      Files.writeString(file, changed);
      fails(Code.G607, () -> rest(session));
      assertThat(session.events()).isEmpty();
      assertThat(Files.readString(file)).isEqualTo(changed);
    }
  }

  @Test
  void whatWouldBeWrittenToADeletedFileIsRefusedAndCanBeToldOnceItIsBack() throws IOException {
    Path file = folder.resolve("walk.jsonl");
    Path elsewhere = folder.resolve("elsewhere.jsonl");
    try (Journal journal = Journal.create(file, WALK, INES, Optional.empty())) {
      Session session = Session.open(WALK, INES, journal);
      Files.move(file, elsewhere);
      fails(Code.G607, () -> rest(session));
      Files.writeString(file, HEAD + "\n");
      fails(Code.G607, () -> rest(session));
      assertThat(session.events()).isEmpty();
      Files.move(elsewhere, file, StandardCopyOption.REPLACE_EXISTING);
      rest(session);
      assertThat(Files.readString(file)).isEqualTo(HEAD + "\n" + firstLine());
    }
  }
}
