package org.gradus.exchange;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.lang.reflect.Array;
import java.lang.reflect.Constructor;
import java.lang.reflect.Executable;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.Parameter;
import java.lang.reflect.Proxy;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZonedDateTime;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.cases.Cases;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;
import org.gradus.exchange.device.HeartRateStream;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.report.Report;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.training.Training;
import org.gradus.trial.Population;
import org.gradus.trial.Trial;
import org.gradus.unit.Quantities;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;

/**
 * A null where none belongs is refused with the name of the parameter, by every public constructor
 * and method of every package that is open to hosts.
 */
class NullsTest {

  private static final Pattern OPEN = Pattern.compile("exports ([\\w.]+);");
  private static final List<String> MODULES =
      List.of("../../grammar", "../engine", "../authoring", "../testkit", ".", "../../protocols");
  private static final int MOST_OF_A_TYPE = 3;

  // A fold calls one of its functions at once, and never the others.
  private static final Set<String> PASSED_OVER =
      Set.of("equals", "valueOf", "compareTo", "match", "accept");

  // A host is given these; it cannot make them, or not without a file or a property of jqwik.
  private static final Set<String> NOT_MADE =
      Set.of(
          "org.gradus.history.Journal",
          "org.gradus.history.Journal$Reopened",
          "org.gradus.library.Keys",
          "org.gradus.testkit.LiveSession",
          "org.gradus.testkit.Moment",
          "org.gradus.testkit.Watch");

  private static final Map<Class<?>, List<Object>> FOUND = new HashMap<>();
  private static final Set<String> OPENED = new TreeSet<>();

  @TempDir private static Path folder = Path.of("");

  /** One of each thing that a host has in hand during a test and after it. */
  @BeforeAll
  static void findValues() throws IOException {
    for (String module : MODULES) {
      OPENED.addAll(opened(Path.of(module, "src/main/java")));
    }
    Library library = Bundled.library("graded-walk-standard");
    Protocol walk = library.protocol("graded-walk-standard");
    Person person =
        Person.builder()
            .age(40)
            .sex(Person.Sex.MALE)
            .mass(Quantities.kg(80))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Session.open(walk, person);
    session.record(at("0:00"), resting(heartRate(70)));
    Decision decision = session.decide(at("0:01"));
    Capacity capacity = Capacity.of(session.outcome());
    SourceFile file = Bundled.cases().get(0);
    Population people = Population.read(Bundled.people());
    Deque<Object> open =
        new ArrayDeque<>(
            List.of(
                library,
                walk,
                person,
                session,
                decision,
                capacity,
                file,
                Span.all("x", "x"),
                Cases.read(file),
                library.equation("walking"),
                people,
                Trial.of(walk, people).people(1),
                Report.of(session),
                TestRecord.of(session, Optional.empty()),
                Training.plan(capacity, library.bands("bands-2011")),
                new HeartRateStream(HeartRateStream.Limits.USUAL)));
    while (!open.isEmpty()) {
      Object one = open.remove();
      if (keep(one)) {
        for (Method method : one.getClass().getMethods()) {
          if (method.getParameterCount() == 0 && isAsked(method)) {
            spread(result(method, one), open);
          }
        }
      }
    }
  }

  private static boolean isAsked(Method method) {
    return Modifier.isPublic(method.getDeclaringClass().getModifiers())
        && method.getDeclaringClass().getName().startsWith("org.gradus.")
        && !Set.of("run", "close", "hashCode", "toString", "html").contains(method.getName());
  }

  private static boolean keep(Object one) {
    if (!one.getClass().getName().startsWith("org.gradus.")) {
      return false;
    }
    List<Object> same = FOUND.computeIfAbsent(one.getClass(), type -> new ArrayList<>());
    return same.size() < MOST_OF_A_TYPE && same.add(one);
  }

  private static @Nullable Object result(Method method, Object one) {
    try {
      return method.invoke(one);
    } catch (ReflectiveOperationException none) {
      return null;
    }
  }

  private static void spread(@Nullable Object value, Deque<Object> open) {
    if (value instanceof Optional<?> some) {
      some.ifPresent(inner -> spread(inner, open));
    } else if (value instanceof Collection<?> many) {
      many.stream().limit(MOST_OF_A_TYPE).forEach(inner -> spread(inner, open));
    } else if (value instanceof Map<?, ?> map) {
      spread(map.keySet(), open);
      spread(map.values(), open);
    } else if (value != null) {
      open.add(value);
    }
  }

  @ParameterizedTest
  @FieldSource("MODULES")
  void aNullIsRefusedWithTheNameOfTheParameter(String module)
      throws IOException, ClassNotFoundException {
    Set<String> wrong = new TreeSet<>();
    Set<String> untried = new TreeSet<>();
    int tried = 0;
    for (Class<?> type : types(Path.of(module, "src/main/java"))) {
      for (Executable one : executables(type)) {
        Object[] arguments = new Object[one.getParameterCount()];
        Optional<Object> target = Optional.of("none");
        if (one instanceof Method method && !Modifier.isStatic(method.getModifiers())) {
          target = sample(type, 0);
        }
        boolean made = target.isPresent();
        for (int i = 0; i < arguments.length; i++) {
          Optional<Object> argument = sample(one.getParameterTypes()[i], 0);
          made &= argument.isPresent();
          arguments[i] = argument.orElse("");
        }
        for (int i = 0; i < arguments.length; i++) {
          Parameter parameter = one.getParameters()[i];
          if (parameter.getType().isPrimitive()
              || parameter.getAnnotatedType().isAnnotationPresent(Nullable.class)) {
            continue;
          }
          if (!made) {
            untried.add(type.getName());
            continue;
          }
          Object[] some = arguments.clone();
          some[i] = null;
          tried++;
          Optional<String> problem = problem(one, target.orElseThrow(), some, parameter.getName());
          problem.ifPresent(
              what -> wrong.add(name(one) + " | " + parameter.getName() + " | " + what));
        }
      }
    }
    assertThat(NOT_MADE).as("not tried").containsAll(untried);
    assertThat(wrong).as("of " + tried + " parameters").isEmpty();
    assertThat(tried).isPositive();
  }

  private static String name(Executable one) {
    return one.getDeclaringClass().getName()
        + " "
        + (one instanceof Constructor ? "new" : one.getName())
        + " "
        + Arrays.stream(one.getParameters()).map(Parameter::getName).toList();
  }

  private static Optional<String> problem(
      Executable one, Object target, @Nullable Object[] arguments, String name) {
    try {
      if (one instanceof Constructor<?> made) {
        made.newInstance(arguments);
      } else if (one instanceof Method method) {
        method.invoke(Modifier.isStatic(method.getModifiers()) ? null : target, arguments);
      }
      return Optional.of("is accepted");
    } catch (InvocationTargetException thrown) {
      Throwable cause = requireNonNull(thrown.getCause());
      String message = String.valueOf(cause.getMessage());
      boolean named = message.equals(name) || message.contains("because \"" + name + "\" is null");
      // A person's values have a refusal of their own, which says what to do with the unknown.
      boolean explained = cause instanceof ReadingRefused && message.contains("cannot be null");
      return (cause instanceof NullPointerException && named) || explained
          ? Optional.empty()
          : Optional.of(cause.toString());
    } catch (ReflectiveOperationException closed) {
      throw new LinkageError(name(one), closed);
    }
  }

  private static List<Class<?>> types(Path sources) throws IOException, ClassNotFoundException {
    List<Class<?>> types = new ArrayList<>();
    for (String name : opened(sources)) {
      Path place = sources.resolve(name.replace('.', '/'));
      for (String file : files(place)) {
        addOpen(Class.forName(name + "." + file.replace(".java", "")), types);
      }
    }
    return types;
  }

  private static List<String> opened(Path sources) throws IOException {
    String module = Files.readString(sources.resolve("module-info.java"));
    return OPEN.matcher(module).results().map((MatchResult found) -> found.group(1)).toList();
  }

  private static List<String> files(Path place) throws IOException {
    try (Stream<Path> files = Files.list(place)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(file -> file.endsWith(".java") && !file.equals("package-info.java"))
          .sorted()
          .toList();
    }
  }

  private static void addOpen(Class<?> type, List<Class<?>> types) {
    if (Modifier.isPublic(type.getModifiers())) {
      types.add(type);
      Arrays.stream(type.getDeclaredClasses()).forEach(inner -> addOpen(inner, types));
    }
  }

  private static List<Executable> executables(Class<?> type) {
    List<Executable> all = new ArrayList<>(List.of(type.getDeclaredConstructors()));
    all.addAll(List.of(type.getDeclaredMethods()));
    return all.stream()
        .filter(one -> Modifier.isPublic(one.getModifiers()) && !one.isSynthetic())
        .filter(one -> !Modifier.isAbstract(one.getModifiers()))
        // Refusals are made by what refuses.
        .filter(one -> one instanceof Method || !Throwable.class.isAssignableFrom(type))
        .filter(one -> one instanceof Method || !Modifier.isAbstract(type.getModifiers()))
        .filter(one -> !PASSED_OVER.contains(one.getName()))
        .filter(one -> Arrays.stream(one.getParameterTypes()).allMatch(NullsTest::isOpen))
        .toList();
  }

  // A member that takes a type of a closed package is none for hosts.
  private static boolean isOpen(Class<?> type) {
    return !type.getName().startsWith("org.gradus.")
        || (Modifier.isPublic(type.getModifiers()) && OPENED.contains(type.getPackageName()));
  }

  private static Optional<Object> sample(Class<?> type, int depth) {
    Object plain = plain(type);
    if (plain != null) {
      return Optional.of(plain);
    }
    Optional<Object> found =
        FOUND.entrySet().stream()
            .filter(entry -> type.isAssignableFrom(entry.getKey()))
            .map(entry -> entry.getValue().get(0))
            .findFirst();
    if (found.isPresent() || depth > 4) {
      return found;
    }
    if (type.isArray()) {
      return sample(type.getComponentType(), depth + 1)
          .map(
              item -> {
                Object array = Array.newInstance(type.getComponentType(), 1);
                Array.set(array, 0, item);
                return array;
              });
    }
    if (type.isInterface() && !type.isSealed()) {
      return Optional.of(
          Proxy.newProxyInstance(
              NullsTest.class.getClassLoader(), new Class<?>[] {type}, (p, m, a) -> null));
    }
    if (type.isSealed()) {
      return Arrays.stream(type.getPermittedSubclasses())
          .map(one -> sample(one, depth + 1))
          .flatMap(Optional::stream)
          .findFirst();
    }
    return made(type, depth);
  }

  private static Optional<Object> made(Class<?> type, int depth) {
    List<Executable> makers = new ArrayList<>(List.of(type.getConstructors()));
    Arrays.stream(type.getMethods())
        .filter(m -> Modifier.isStatic(m.getModifiers()) && m.getReturnType() == type)
        .forEach(makers::add);
    for (Executable maker : makers) {
      List<Object> arguments = new ArrayList<>();
      for (Class<?> parameter : maker.getParameterTypes()) {
        sample(parameter, depth + 1).ifPresent(arguments::add);
      }
      if (arguments.size() < maker.getParameterCount()) {
        continue;
      }
      try {
        return Optional.ofNullable(
            maker instanceof Constructor<?> constructor
                ? constructor.newInstance(arguments.toArray())
                : ((Method) maker).invoke(null, arguments.toArray()));
      } catch (ReflectiveOperationException | IllegalArgumentException another) {
        // The next way may do.
      }
    }
    return Optional.empty();
  }

  private static @Nullable Object plain(Class<?> type) {
    Map<Class<?>, Object> plain = new HashMap<>();
    plain.put(int.class, 1);
    plain.put(long.class, 1L);
    plain.put(double.class, 1.0);
    plain.put(boolean.class, true);
    plain.put(Integer.class, 1);
    plain.put(String.class, "x");
    plain.put(Object.class, "x");
    plain.put(CharSequence.class, "x");
    plain.put(Duration.class, Duration.ofSeconds(1));
    plain.put(Optional.class, Optional.empty());
    plain.put(OptionalInt.class, OptionalInt.empty());
    plain.put(OptionalDouble.class, OptionalDouble.empty());
    plain.put(List.class, List.of());
    plain.put(Collection.class, List.of());
    plain.put(Set.class, Set.of());
    plain.put(Map.class, Map.of());
    plain.put(Random.class, new Random(1));
    plain.put(Locale.class, Locale.ROOT);
    plain.put(Path.class, requireNonNull(folder).resolve("none"));
    plain.put(InputStream.class, new ByteArrayInputStream(new byte[0]));
    plain.put(ZonedDateTime.class, ZonedDateTime.parse("2026-12-01T06:00:00Z"));
    plain.put(byte[].class, new byte[] {0, 0});
    plain.put(Throwable.class, new IOException("x"));
    plain.put(Unit.class, Unit.BPM);
    plain.put(Code.class, Code.G101);
    plain.put(Quantity.class, Quantity.of(1, Unit.BPM));
    Object value = plain.get(type);
    return value == null && type.isEnum() ? type.getEnumConstants()[0] : value;
  }
}
