package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.LoadingStopped;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Problems.Misspelt;
import org.gradus.diagnostic.SourceFile;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.NormTable;
import org.gradus.library.Equipment.Opened;
import org.gradus.protocol.Protocol;

/**
 * Reads all files of a library: first each by itself, then each protocol with what it includes.
 * Where a key is misspelt, the files are read again as it was meant, so that what is wrong below it
 * shows too, and what seemed to be missing does not.
 */
final class Loader {

  // A slip may hide another below it, but hardly a fifth.
  private static final int MOST_READINGS = 4;

  private final Problems problems;
  private final Spelling spelling;
  private final Problems leftOver = new Problems();
  private final Shelf shelf = new Shelf();
  private final List<Draft> protocols = new ArrayList<>();
  private final Map<String, Header> headers = new LinkedHashMap<>();

  /** Files that name what stands in others, and are read after them. */
  private final List<Runnable> late = new ArrayList<>();

  private Loader(Problems problems, Spelling spelling) {
    this.problems = problems;
    this.spelling = spelling;
  }

  /**
   * What files offer to a library.
   *
   * @param protocols by id
   * @param files the files that each protocol rests on, by its id
   * @param norms tables of reference values, by id
   * @param bands intensity bands, by the ids of their files
   * @param equations oxygen costs and maximal heart rates, by id
   * @param translations what files say in other languages
   * @param leftOver words in other languages whose originals are not there
   * @param passedOver the files of protocols that were not asked for, by id
   */
  record Loaded(
      Map<String, Protocol> protocols,
      Map<String, List<SourceFile>> files,
      Map<String, NormTable> norms,
      Map<String, IntensityBands> bands,
      Map<String, Equation> equations,
      List<TranslatedWords> translations,
      List<Diagnostic> leftOver,
      Map<String, SourceFile> passedOver) {

    /** Nothing yet. */
    static final Loaded NOTHING =
        new Loaded(
            Map.of(), Map.of(), Map.of(), Map.of(), Map.of(), List.of(), List.of(), Map.of());

    /** A protocol that was checked with just these files, if there is one. */
    private Optional<Protocol> checked(String id, List<SourceFile> with) {
      return with.equals(files.get(id)) ? Optional.ofNullable(protocols.get(id)) : Optional.empty();
    }
  }

  /**
   * What these files offer.
   *
   * @param unread what has been found wrong before, when files could not be opened
   * @param known what was loaded before; a protocol that rests on the same files is taken from it
   * @param wanted whether a protocol is asked for, by its id; others are not checked
   * @throws FileRefused when anything is wrong, with all of it
   * @throws LoadingStopped when the thread is interrupted
   */
  static Loaded load(
      List<SourceFile> files, Problems unread, Loaded known, Predicate<String> wanted) {
    Spelling spelling = Spelling.AS_WRITTEN;
    for (int readings = 1; ; readings++) {
      Problems problems = new Problems();
      unread.sorted().forEach(problems::add);
      Loader loader = new Loader(problems, spelling);
      loader.shelf.torn = !unread.isEmpty();
      Loaded loaded = loader.read(files, known, wanted);
      List<Misspelt> misspelt = problems.misspelt();
      if (misspelt.isEmpty() || readings == MOST_READINGS) {
        spelling.report(problems);
        if (!problems.isEmpty()) {
          throw new FileRefused(SameName.joined(problems.sorted()));
        }
        return loaded;
      }
      spelling = spelling.with(misspelt);
    }
  }

  private Loaded read(List<SourceFile> files, Loaded known, Predicate<String> wanted) {
    List<Opened> opened = files.stream().flatMap(file -> open(file).stream()).toList();
    shelf.equipment.declare(opened);
    shelf.contents.put(Equipment.ID, shelf.equipment.standardKeys());
    opened.forEach(this::read);
    CostSpreads.fill(shelf.costs);
    late.forEach(Runnable::run);
    shelf.common.addAll(shelf.equipment.declaring(shelf.costs.values()));
    Map<String, Protocol> loaded = new LinkedHashMap<>();
    Map<String, List<SourceFile>> resting = new LinkedHashMap<>();
    Includes includes = new Includes(shelf, problems);
    Map<String, SourceFile> passedOver = new LinkedHashMap<>();
    for (Draft protocol : protocols) {
      String id = protocol.header.id();
      stopIfInterrupted(id);
      if (!wanted.test(id)) {
        passedOver.put(id, protocol.header.where().file());
        continue;
      }
      Draft whole = includes.resolve(protocol);
      Set<SourceFile> rests = new LinkedHashSet<>(whole.files);
      rests.addAll(shelf.common);
      List<SourceFile> with = List.copyOf(rests);
      known
          .checked(id, with)
          .or(() -> Assembly.of(whole, shelf, problems))
          .ifPresent(ready -> loaded.put(id, ready));
      resting.put(id, with);
    }
    return new Loaded(
        loaded,
        resting,
        Map.copyOf(shelf.norms),
        Map.copyOf(shelf.bands),
        EquationReader.equations(shelf),
        List.copyOf(shelf.translations),
        SameName.joined(leftOver.sorted()),
        Map.copyOf(passedOver));
  }

  // A host that was given too much to read interrupts the thread. No single file takes long.
  private static void stopIfInterrupted(String at) {
    if (Thread.currentThread().isInterrupted()) {
      throw new LoadingStopped(at);
    }
  }

  private Optional<Opened> open(SourceFile file) {
    stopIfInterrupted(file.name());
    int before = problems.count();
    Optional<Keys> keys =
        YamlReader.read(file, problems)
            .map(spelling::asMeant)
            .flatMap(content -> Keys.of(content, Keys.OF_A_FILE, problems));
    boolean sound = problems.count() == before;
    Optional<Header> header = keys.flatMap(found -> Header.read(found, problems));
    if (header.isEmpty()) {
      keys.ifPresent(Keys::giveUp);
      shelf.torn = true;
    }
    return header.map(head -> new Opened(head, keys.orElseThrow(), sound));
  }

  private void read(Opened file) {
    Keys keys = file.keys();
    Header header = file.header();
    unique(header);
    shelf.kinds.putIfAbsent(header.id(), header.kind());
    shelf.contents.putIfAbsent(header.id(), keys);
    ScalarParser texts = new ScalarParser(problems, header, shelf.equipment);
    switch (header.kind()) {
      case "protocol" -> {
        Draft draft = new Draft(header);
        new ProtocolReader(texts).read(keys, draft);
        draft.torn |= !file.sound() || keys.isTorn();
        protocols.add(draft);
      }
      case "rules" -> {
        Draft draft = new Draft(header);
        RuleReader rules = new RuleReader(texts, header.id() + "/");
        new SetReader(texts, rules).read(keys, draft);
        keys.misplaced(
            "include", "a rule set includes nothing; list both sets under include of the protocol");
        draft.torn |= !file.sound() || keys.isTorn();
        shelf.sets.putIfAbsent(header.id(), draft);
      }
      case "norms" -> new NormReader(texts, shelf).read(keys);
      case "words" -> {
        late.add(() -> new WordsReader(shelf, header, problems, leftOver).read(keys));
        return;
      }
      case "intensity" -> {
        late.add(() -> new IntensityReader(texts, shelf, header).read(keys));
        return;
      }
      default -> {
        new EquationReader(texts, shelf).read(keys);
        shelf.common.add(header.where().file());
        shelf.torn |= !file.sound() || keys.isTorn();
      }
    }
    shelf.torn |= header.id().isEmpty();
    keys.done();
  }

  private void unique(Header header) {
    Header other = headers.putIfAbsent(header.kind() + " " + header.id(), header);
    if (other != null && !header.id().isEmpty()) {
      problems.add(
          header.where(),
          Code.G306,
          header.kind() + " " + header.id() + " (also in " + other.where().file() + ")");
    }
  }
}
