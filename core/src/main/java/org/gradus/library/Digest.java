package org.gradus.library;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Collection;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.SourceFile;
import org.gradus.protocol.Setting;

/**
 * A fingerprint of the files a protocol was made of and of its settings: equal for equal texts,
 * whatever the files are called and in whichever order they were read.
 */
final class Digest {

  private Digest() {}

  static String of(Collection<SourceFile> files, Map<String, Setting> settings) {
    MessageDigest digest = sha256();
    List<String> texts = files.stream().map(SourceFile::text).sorted().toList();
    texts.forEach(text -> add(digest, text));
    settings.values().stream()
        .sorted(Comparator.comparing(Setting::name))
        .forEach(setting -> add(digest, setting.name() + ": " + setting.value()));
    return HexFormat.of().formatHex(digest.digest());
  }

  // The length before the text, so that no two lists of texts run together alike.
  private static void add(MessageDigest digest, String text) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    digest.update((bytes.length + ":").getBytes(StandardCharsets.UTF_8));
    digest.update(bytes);
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
