package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.gradus.diagnostic.Printable;

/** A report as plain text. Tables become lists, since they would not fit a narrow terminal. */
final class TextPage {

  /** How wide lines are where nobody says. */
  static final int WIDTH = 100;

  private static final int NARROWEST = 20;

  private final StringBuilder out = new StringBuilder();
  private final int width;

  TextPage(int width) {
    this.width = Math.max(NARROWEST, width);
  }

  String write(String title, List<Section> sections) {
    wrapped("", title.toUpperCase(Locale.ROOT));
    for (Section section : sections) {
      line("");
      line(section.title());
      line("-".repeat(section.title().length()));
      section.blocks().forEach(this::block);
    }
    return out.toString();
  }

  private void block(Block block) {
    if (block instanceof Block.Paragraph paragraph) {
      wrapped("", paragraph.text());
    } else if (block instanceof Block.Warning warning) {
      wrapped("! ", warning.text());
    } else if (block instanceof Block.Answer answer) {
      wrapped("", answer.value() + ", " + answer.around());
    } else if (block instanceof Block.Items items) {
      items.items().forEach(item -> wrapped("- ", item));
    } else if (block instanceof Block.Facts facts) {
      facts.facts().forEach(fact -> wrapped("", fact.name() + ": " + fact.value()));
    } else if (block instanceof Block.Table table) {
      table(table);
    } else if (block instanceof Block.Picture picture) {
      wrapped("", picture.chart().words());
    }
  }

  private void table(Block.Table table) {
    wrapped("", table.caption() + ":");
    for (List<String> row : table.rows()) {
      List<String> cells = new ArrayList<>();
      for (int i = 1; i < row.size(); i++) {
        if (!row.get(i).isEmpty()) {
          cells.add(table.heads().get(i) + ": " + row.get(i));
        }
      }
      wrapped("- ", row.get(0) + "; " + String.join("; ", cells));
    }
  }

  private void wrapped(String mark, String text) {
    String indent = " ".repeat(mark.length());
    StringBuilder line = new StringBuilder(mark);
    int words = 0;
    // What came in must not draw lines of its own: it could pass for a part of the report.
    for (String word : plain(text).split("\\s+", -1)) {
      if (words > 0 && line.length() + 1 + word.length() > width) {
        line(line.toString());
        line = new StringBuilder(indent);
        words = 0;
      }
      line.append(words > 0 ? " " : "").append(word);
      words++;
      // A fingerprint or an address may be longer than a line.
      while (line.length() > width) {
        line(line.substring(0, width));
        line = new StringBuilder(indent).append(line, width, line.length());
      }
    }
    line(line.toString());
  }

  private static String plain(String text) {
    return Printable.text(text.replaceAll("\\s", " ")).strip();
  }

  private void line(String text) {
    out.append(text).append('\n');
  }
}
