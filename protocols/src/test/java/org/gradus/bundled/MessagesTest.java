package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.gradus.words.Joined;
import org.gradus.words.Language;
import org.gradus.words.MessageKey;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every message has one text in every language, and every text belongs to a message. */
class MessagesTest {

  private static final Pattern PLACE = Pattern.compile("\\{(\\d)");

  // One quote opens what is not to be filled in; a word's own quote is written twice.
  private static final Pattern LONE_QUOTE = Pattern.compile("(?<!')'(?!')");

  static List<JavaClass> families() {
    return new ClassFileImporter()
        .withImportOption(new DoNotIncludeTests()).importPackages("org.gradus").stream()
            .filter(JavaClass::isEnum)
            .filter(family -> family.isAssignableTo(MessageKey.class))
            .filter(family -> !family.isEquivalentTo(Joined.class))
            .toList();
  }

  private static String bundle(JavaClass family) {
    String name = family.getName();
    int nested = name.indexOf('$');
    return "/" + (nested < 0 ? name : name.substring(0, nested)).replace('.', '/');
  }

  private static Properties texts(JavaClass family, Locale language) throws IOException {
    Properties texts = new Properties();
    String file = bundle(family) + "_" + language.getLanguage() + ".properties";
    var stream = MessageKey.class.getResourceAsStream(file);
    assertThat(stream).as(file).isNotNull();
    try (var reader = new InputStreamReader(stream, StandardCharsets.UTF_8)) {
      texts.load(reader);
    }
    return texts;
  }

  private static Set<String> keys(JavaClass family) {
    Set<String> keys = new TreeSet<>();
    for (JavaField field : family.getFields()) {
      if (field.getRawType().equals(family)) {
        keys.add(field.getName());
        if (family.getSimpleName().equals("Code")) {
          keys.add(field.getName() + ".help");
        }
      }
    }
    return keys;
  }

  private static Set<String> places(String pattern) {
    Set<String> places = new TreeSet<>();
    Matcher found = PLACE.matcher(pattern);
    while (found.find()) {
      places.add(found.group(1));
    }
    return places;
  }

  @ParameterizedTest
  @MethodSource("families")
  void everyKeyHasATextInEveryLanguageAndEveryTextAKey(JavaClass family) throws IOException {
    assertThat(keys(family)).isNotEmpty();
    Properties english = texts(family, Locale.ENGLISH);
    for (Locale language : Language.all()) {
      Properties texts = texts(family, language);
      assertThat(new TreeSet<>(texts.stringPropertyNames()))
          .as("%s in %s", family.getSimpleName(), language)
          .isEqualTo(keys(family));
      for (String key : texts.stringPropertyNames()) {
        assertThat(places(texts.getProperty(key)))
            .as("what %s of %s speaks of in %s", key, family.getSimpleName(), language)
            .isEqualTo(places(english.getProperty(key)));
        assertThat(texts.getProperty(key)).as(key).doesNotContainPattern(LONE_QUOTE);
        assertThat(texts.getProperty(key)).as(key).isEqualTo(texts.getProperty(key).strip());
      }
    }
  }

  @ParameterizedTest
  @MethodSource("families")
  void nothingButNamesIsTheSameInTwoLanguages(JavaClass family) throws IOException {
    Properties english = texts(family, Locale.ENGLISH);
    List<String> same = new ArrayList<>();
    for (Locale language : Language.all()) {
      Properties texts = texts(family, language);
      texts.stringPropertyNames().stream()
          .filter(key -> !language.equals(Locale.ENGLISH))
          .filter(key -> texts.getProperty(key).matches("(?s).*\\p{L}{4,}.*\\s\\p{L}{4,}.*"))
          .filter(key -> texts.getProperty(key).equals(english.getProperty(key)))
          .forEach(same::add);
    }
    assertThat(same).isEmpty();
  }

  // A text that nothing says is left over, also where a constant keeps it.
  @ParameterizedTest
  @MethodSource("families")
  void everyKeyIsSaidSomewhere(JavaClass family) {
    Set<String> unused = new LinkedHashSet<>(keys(family));
    Stream.of(family)
        .flatMap(one -> one.getFields().stream())
        .filter(field -> field.getRawType().equals(family))
        .filter(
            field ->
                field.getAccessesToSelf().stream()
                    .anyMatch(access -> !access.getOriginOwner().equals(family)))
        .forEach(field -> unused.remove(field.getName()));
    unused.removeIf(key -> key.endsWith(".help") || family.getSimpleName().equals("UnitWord"));
    assertThat(unused).as(family.getSimpleName()).isEmpty();
  }
}
