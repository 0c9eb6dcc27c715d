package org.gradus.surface;

import java.io.IOException;
import java.lang.reflect.Constructor;
import java.lang.reflect.Executable;
import java.lang.reflect.Field;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.Type;
import java.lang.reflect.TypeVariable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The types that modules open to everybody, with their public and protected members. A member that
 * shows a type of a closed package can be used by nobody else, and says so.
 */
final class Surface {

  private static final Pattern OPEN = Pattern.compile("exports ([\\w.]+);");
  private static final Pattern OWN = Pattern.compile("org\\.gradus\\.[\\w.$]+");
  private static final Pattern QUALIFIER = Pattern.compile("\\b(?:[a-z]\\w*\\.)+(?=[A-Z])");
  // The language or every object has them.
  private static final Set<String> EVERYWHERE =
      Set.of("equals", "hashCode", "toString", "values", "valueOf");

  private final List<Path> sources;
  private final Set<String> open = new TreeSet<>();

  /** The surface of modules, each with its declaration at the top of its sources. */
  Surface(List<Path> sources) throws IOException {
    this.sources = List.copyOf(sources);
    for (Path source : sources) {
      OPEN.matcher(Files.readString(source.resolve("module-info.java")))
          .results()
          .map((MatchResult found) -> found.group(1))
          .forEach(open::add);
    }
  }

  /** A line for each type, in the order of their names, and below it one for each member. */
  List<String> lines() throws IOException {
    List<String> lines = new ArrayList<>();
    for (String name : open) {
      for (Class<?> top : inPackage(name)) {
        describe(top, lines);
      }
    }
    return lines;
  }

  private List<Class<?>> inPackage(String name) throws IOException {
    Set<String> names = new TreeSet<>();
    for (Path source : sources) {
      Path folder = source.resolve(name.replace('.', '/'));
      if (Files.isDirectory(folder)) {
        try (Stream<Path> files = Files.list(folder)) {
          files
              .map(file -> file.getFileName().toString())
              .filter(file -> file.endsWith(".java") && !file.startsWith("package-info"))
              .forEach(file -> names.add(file.replace(".java", "")));
        }
      }
    }
    List<Class<?>> types = new ArrayList<>();
    for (String type : names) {
      try {
        types.add(Class.forName(name + "." + type, false, getClass().getClassLoader()));
      } catch (ClassNotFoundException missing) {
        throw new IllegalStateException("compiled without " + type, missing);
      }
    }
    return types;
  }

  private void describe(Class<?> type, List<String> lines) {
    if (!isShown(type.getModifiers())) {
      return;
    }
    lines.add(type.getCanonicalName() + " " + kind(type) + above(type));
    Set<String> members = new TreeSet<>();
    for (Constructor<?> made : type.getDeclaredConstructors()) {
      if (isShown(made.getModifiers()) && !made.isSynthetic()) {
        members.add(member(made, "new" + parameters(made)));
      }
    }
    for (Field field : type.getDeclaredFields()) {
      if (isShown(field.getModifiers()) && !field.isSynthetic()) {
        String text = modifiers(field.getModifiers()) + shortly(field.getGenericType());
        members.add("  " + text + " " + field.getName() + closed(List.of(field.getGenericType())));
      }
    }
    methods(type).forEach(members::add);
    lines.addAll(members);
    Arrays.stream(type.getDeclaredClasses())
        .sorted((a, b) -> a.getName().compareTo(b.getName()))
        .forEach(inner -> describe(inner, lines));
  }

  // What is inherited from a type that hosts cannot see is shown by the one that they can.
  private Set<String> methods(Class<?> type) {
    Set<String> methods = new TreeSet<>();
    for (Class<?> from = type; from != null; from = from.getSuperclass()) {
      for (Method method : from.getDeclaredMethods()) {
        boolean plain = !method.isSynthetic() && !EVERYWHERE.contains(method.getName());
        if (plain && isShown(method.getModifiers())) {
          methods.add(
              member(
                  method,
                  modifiers(method.getModifiers())
                      + variables(method.getTypeParameters())
                      + shortly(method.getGenericReturnType())
                      + " "
                      + method.getName()
                      + parameters(method)));
        }
      }
      Class<?> next = from.getSuperclass();
      if (next == null || Modifier.isPublic(next.getModifiers())) {
        break;
      }
    }
    return methods;
  }

  private String member(Executable member, String text) {
    List<Type> types = new ArrayList<>(List.of(member.getGenericParameterTypes()));
    if (member instanceof Method method) {
      types.add(method.getGenericReturnType());
    }
    return "  " + text + closed(types);
  }

  private String closed(List<Type> types) {
    boolean closed =
        types.stream()
            .flatMap(type -> OWN.matcher(type.getTypeName()).results())
            .map(found -> found.group().replaceAll("\\.[A-Z].*", ""))
            .anyMatch(name -> !open.contains(name));
    return closed ? " (closed)" : "";
  }

  private static boolean isShown(int modifiers) {
    return Modifier.isPublic(modifiers) || Modifier.isProtected(modifiers);
  }

  private static String kind(Class<?> type) {
    String sealed = type.isSealed() ? "sealed " : "";
    if (type.isRecord()) {
      return "record";
    } else if (type.isEnum()) {
      return "enum";
    } else if (type.isInterface()) {
      return sealed + "interface" + variables(type.getTypeParameters());
    }
    boolean open = !Modifier.isFinal(type.getModifiers()) && !type.isSealed();
    String changed = Modifier.isAbstract(type.getModifiers()) ? "abstract " : open ? "open " : "";
    return sealed + changed + "class" + variables(type.getTypeParameters());
  }

  private static String above(Class<?> type) {
    Stream<Type> parent =
        type.getSuperclass() == null ? Stream.empty() : Stream.of(type.getGenericSuperclass());
    String names =
        Stream.concat(parent, Arrays.stream(type.getGenericInterfaces()))
            .map(Surface::shortly)
            .filter(name -> !name.matches("Object|Record|Enum<.*"))
            .collect(Collectors.joining(", "));
    return names.isEmpty() ? "" : " is " + names;
  }

  private static String modifiers(int modifiers) {
    return (Modifier.isProtected(modifiers) ? "protected " : "")
        + (Modifier.isStatic(modifiers) ? "static " : "");
  }

  private static String variables(TypeVariable<?>[] variables) {
    String names =
        Arrays.stream(variables).map(TypeVariable::getName).collect(Collectors.joining(", "));
    return names.isEmpty() ? "" : "<" + names + "> ";
  }

  private static String parameters(Executable of) {
    return Arrays.stream(of.getGenericParameterTypes())
        .map(Surface::shortly)
        .collect(Collectors.joining(", ", "(", ")"));
  }

  private static String shortly(Type type) {
    return QUALIFIER.matcher(type.getTypeName().replace('$', '.')).replaceAll("");
  }
}
