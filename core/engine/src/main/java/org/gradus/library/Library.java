package org.gradus.library;

import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.InputRefused;
import org.gradus.diagnostic.LoadingStopped;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Suggestion;
import org.gradus.knowledge.IntensityBands;
import org.gradus.knowledge.NormTable;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.Heading;
import org.gradus.protocol.Protocol;
import org.gradus.words.Language;

/**
 * Protocols, read from files together with the rule sets and equations they rest on.
 *
 * <pre>{@code
 * Library library = Library.load(Path.of("my-protocols"));
 * Protocol walk = library.protocol("graded-walk-standard");
 * }</pre>
 *
 * <p>A library either loads whole or not at all: every problem of every file is reported in one
 * {@link FileRefused}. What loads is total and finite: every stage end comes to a verdict and every
 * test ends. Immutable; shared freely between threads.
 *
 * <p><strong>Files of strangers.</strong> Nothing in a file runs, and what a file may ask of the
 * reader is limited, on every machine alike: 1,000,000 characters in 32 levels (G308), 1,000 words
 * and 24 open brackets in a rule or formula, 10,000 parts of it with its definitions written out,
 * 500,000 parts in a protocol with its sets (G105), 60 stages. How many files there are is the
 * host's decision. A thread that is interrupted stops at the next file or protocol with {@link
 * LoadingStopped}, so a host can bound the time too; what was there before stays as it is.
 *
 * <p>Gradus advises a trained person who decides. It is no medical device: medical clearance, an
 * emergency plan, local rules and licensed practice come before anything it says.
 */
public final class Library {

  // What the engine names itself where a file can name something too.
  private static final List<ResultMessage> OF_ENGINE =
      List.of(
          ResultMessage.AEROBIC_CAPACITY,
          ResultMessage.THE_ANSWER,
          ResultMessage.THE_LINE,
          ResultMessage.LINE_THROUGH_STAGES);

  private final List<SourceFile> files;
  private final Loader.Loaded loaded;

  private Library(
      List<SourceFile> files, Problems problems, Loader.Loaded known, Predicate<String> wanted) {
    this.loaded = Loader.load(files, problems, known, wanted);
    this.files = files.stream().filter(file -> !loaded.passedOver().containsValue(file)).toList();
  }

  /**
   * Reads files that are already in memory.
   *
   * @throws FileRefused with every problem found
   */
  public static Library of(Collection<SourceFile> files) {
    requireNonNull(files, "files");
    return new Library(List.copyOf(files), new Problems(), Loader.Loaded.NOTHING, id -> true);
  }

  /**
   * Reads files that are already in memory, and of their protocols only some: a fast start for a
   * program that needs few. Of the other protocols nothing is checked beyond what can be read, and
   * their files are not among {@link #files}.
   *
   * @param protocols the ids of the protocols
   * @throws FileRefused with every problem found
   * @throws NotFound when there is no protocol of one of these ids
   */
  public static Library of(Collection<SourceFile> files, Collection<String> protocols) {
    requireNonNull(files, "files");
    requireNonNull(protocols, "protocols");
    Set<String> wanted = Set.copyOf(protocols);
    Library library =
        new Library(List.copyOf(files), new Problems(), Loader.Loaded.NOTHING, wanted::contains);
    Map<String, Object> all = new HashMap<>(library.loaded.passedOver());
    all.putAll(library.loaded.protocols());
    wanted.stream().sorted().forEach(id -> named("protocol", "protocols", id, all));
    return library;
  }

  /**
   * Reads every {@code .yaml} file of a folder, but not of folders in it. Files named {@code
   * *.cases.yaml} hold test cases and are passed over.
   *
   * @throws FileRefused with every problem found
   * @throws InputRefused when the folder or a file cannot be read at all
   */
  public static Library load(Path folder) {
    requireNonNull(folder, "folder");
    return joined(List.of(), Loader.Loaded.NOTHING, folder);
  }

  /**
   * These files together with those of a folder, which may use and include them.
   *
   * @throws FileRefused with every problem found
   * @throws InputRefused when the folder or a file cannot be read at all
   */
  public Library and(Path folder) {
    requireNonNull(folder, "folder");
    return joined(files, loaded, folder);
  }

  /**
   * These files together with others, such as those that somebody uploaded. A protocol whose files
   * are all as they were is not checked again: it is the same object in both libraries. Another
   * file of equations concerns every protocol.
   *
   * @param others the other files, which may use and include these
   * @throws FileRefused with every problem found, among them an id that is there already (G306);
   *     this library stays as it is
   */
  public Library and(Collection<SourceFile> others) {
    requireNonNull(others, "others");
    List<SourceFile> all = new ArrayList<>(files);
    all.addAll(others);
    return new Library(all, new Problems(), loaded, id -> true);
  }

  private static Library joined(List<SourceFile> files, Loader.Loaded known, Path folder) {
    List<SourceFile> all = new ArrayList<>(files);
    Problems problems = new Problems();
    try (Stream<Path> paths = Files.list(folder)) {
      for (Path path : paths.filter(Library::isRead).sorted().toList()) {
        try (InputStream stream = Files.newInputStream(path)) {
          FileBytes.read(path.getFileName().toString(), stream, problems).ifPresent(all::add);
        }
      }
    } catch (IOException e) {
      throw unreadable("the folder " + folder, e);
    }
    return new Library(all, problems, known, id -> true);
  }

  private static boolean isRead(Path path) {
    String name = path.getFileName().toString();
    return name.endsWith(".yaml") && !name.endsWith(".cases.yaml") && Files.isRegularFile(path);
  }

  /**
   * Reads one file from a stream, as UTF-8, for {@link #of}. The stream is not closed.
   *
   * @param name the name to show in messages
   * @throws FileRefused when it is not UTF-8, or larger than any such file
   * @throws InputRefused when the stream cannot be read
   */
  public static SourceFile file(String name, InputStream stream) {
    requireNonNull(name, "name");
    Problems problems = new Problems();
    try {
      Optional<SourceFile> file = FileBytes.read(name, stream, problems);
      problems.throwIfAny();
      return file.orElseThrow();
    } catch (IOException e) {
      throw unreadable("the file " + name, e);
    }
  }

  private static InputRefused unreadable(String what, IOException e) {
    String reason =
        e instanceof NoSuchFileException none
            ? "there is no " + none.getFile()
            : e instanceof NotDirectoryException
                ? "it is no folder"
                : e instanceof AccessDeniedException denied
                    ? "permission for " + denied.getFile() + " is denied"
                    : String.valueOf(e.getMessage());
    return new InputRefused(what, reason, "check its name and permissions", e);
  }

  /** The files it was read from. */
  public List<SourceFile> files() {
    return files;
  }

  /**
   * The files to keep beside a record of a protocol: its own, those of the rule sets it includes,
   * and all files of equations. A library of these files alone holds the same protocol.
   *
   * @param protocol its id
   * @throws NotFound when there is no protocol of that id
   */
  public List<SourceFile> filesOf(String protocol) {
    requireNonNull(protocol, "protocol");
    return named("protocol", "protocols", protocol, loaded.files());
  }

  /**
   * A language with what the files of a protocol say in it, as far as files of the kind {@code
   * words} translate them. What is not translated is said as the files say it.
   *
   * <pre>{@code
   * Language spanish = library.language("graded-walk-standard", Locale.forLanguageTag("es"));
   * report.in(spanish).html();
   * }</pre>
   *
   * @param protocol its id
   * @param locale a locale of one of {@link Language#all}; English for any other
   * @throws NotFound when there is no protocol of that id
   */
  public Language language(String protocol, Locale locale) {
    requireNonNull(locale, "locale");
    Set<SourceFile> own = Set.copyOf(filesOf(protocol));
    Language language = Language.of(locale);
    Map<String, String> ofEngine = new HashMap<>();
    for (ResultMessage key : OF_ENGINE) {
      ofEngine.put(Language.ENGLISH.say(key), language.say(key));
    }
    language = language.with(Map.of(), ofEngine);
    for (TranslatedWords words : loaded.translations()) {
      if (words.language().equals(language.locale().getLanguage()) && words.concerns(own)) {
        language = language.with(words.names(), words.texts());
      }
    }
    return language;
  }

  /**
   * Words in other languages that are of no use any more, because no file under their {@code for}
   * says what they translate: it was changed, or written otherwise. What they were to translate is
   * said as the file says it.
   */
  public List<Diagnostic> leftOverWords() {
    return loaded.leftOver();
  }

  /** The ids of the protocols, sorted. */
  public List<String> protocols() {
    return loaded.protocols().keySet().stream().sorted().toList();
  }

  /**
   * The protocols that mention every one of some words in id, title, ergometer, purpose or
   * citations, in the order of their ids.
   *
   * <pre>{@code
   * library.find("cycle 1954").forEach(found -> System.out.println(found.id() + ": " + found.title()));
   * }</pre>
   *
   * @param words parted by blanks; none of them finds everything
   */
  public List<Heading> find(String words) {
    List<String> wanted = List.of(words.strip().split("\\s+"));
    return protocols().stream()
        .map(id -> protocol(id).heading())
        .filter(heading -> wanted.stream().allMatch(heading::mentions))
        .toList();
  }

  /**
   * A protocol.
   *
   * @param id for example {@code "graded-walk-standard"}
   * @throws NotFound when there is none of that id
   */
  public Protocol protocol(String id) {
    return named("protocol", "protocols", id, loaded.protocols());
  }

  /**
   * Intensity bands, for a training plan.
   *
   * @param id the id of their file, for example {@code "bands-2011"}
   * @throws NotFound when there are none of that id
   */
  public IntensityBands bands(String id) {
    requireNonNull(id, "id");
    return named("intensity bands", "intensity bands", id, loaded.bands());
  }

  /** The ids of all equations, sorted: oxygen costs, maximal heart rates and energies. */
  public List<String> equations() {
    return loaded.equations().keySet().stream().sorted().toList();
  }

  /**
   * An equation, to be worked out by itself.
   *
   * @param id for example {@code "walking"} or {@code "general_1971"}
   * @throws NotFound when there is none of that id
   */
  public Equation equation(String id) {
    requireNonNull(id, "id");
    return named("equation", "equations", id, loaded.equations());
  }

  /**
   * A table of reference values, in which a value can be looked up by itself: {@link
   * org.gradus.capacity.Standing#of}.
   *
   * @param id its id; {@link #norms} has all of them
   * @throws NotFound when there is none of that id
   */
  public NormTable norm(String id) {
    requireNonNull(id, "id");
    return named("table of norms", "tables of norms", id, loaded.norms());
  }

  /** All tables of reference values, by their ids. */
  public List<NormTable> norms() {
    return loaded.norms().values().stream().sorted(Comparator.comparing(NormTable::id)).toList();
  }

  private static <T> T named(String what, String all, String id, Map<String, T> things) {
    T found = things.get(id);
    if (found == null) {
      List<String> ids = things.keySet().stream().sorted().toList();
      throw new NotFound(Code.G604, what, id, meant(id, ids, all));
    }
    return found;
  }

  // Whoever knows only a part of an id is shown those that have it.
  private static String meant(String id, List<String> ids, String all) {
    List<String> longer = ids.stream().filter(one -> !id.isEmpty() && one.contains(id)).toList();
    if (!longer.isEmpty()) {
      return "did you mean " + String.join(" or ", longer) + "?";
    }
    String otherwise =
        ids.isEmpty() ? "this library holds no " + all : "there are " + String.join(", ", ids);
    return Suggestion.help(id, ids, otherwise);
  }
}
