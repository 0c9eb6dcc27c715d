package org.gradus.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.gradus.diagnostic.Printable;

/** A report as plain text. Tables become lists, since they would not fit a narrow terminal. */
final class TextPage implements Block.Page {

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
      section.blocks().forEach(block -> block.on(this));
    }
    return out.toString();
  }

  @Override
  public void paragraph(Block.Paragraph paragraph) {
    wrapped("", paragraph.text());
  }

  @Override
  public void warning(Block.Warning warning) {
    wrapped("! ", warning.text());
  }

  @Override
  public void answer(Block.Answer answer) {
    wrapped("", answer.value() + ", " + answer.around());
  }

  @Override
  public void items(Block.Items items) {
    items.items().forEach(item -> wrapped("- ", item));
  }

  @Override
  public void sources(Block.Sources sources) {
    for (int i = 0; i < sources.texts().size(); i++) {
      wrapped("", (i + 1) + ". " + sources.texts().get(i));
    }
  }

  @Override
  public void facts(Block.Facts facts) {
    facts.facts().forEach(fact -> wrapped("", fact.name() + ": " + fact.value()));
  }

  @Override
  public void picture(Block.Picture picture) {
    wrapped("", picture.figure().title() + ": " + picture.figure().words());
  }

  @Override
  public void signature(Block.Signature signature) {
    signature.lines().forEach(line -> wrapped("", line + ": ______________"));
  }

  @Override
  public void table(Block.Table table) {
    wrapped("", table.caption() + ":");
    for (List<Block.Cell> row : table.rows()) {
      List<String> cells = new ArrayList<>();
      for (int i = 1; i < row.size(); i++) {
        if (!row.get(i).text().isEmpty()) {
          cells.add(table.heads().get(i) + ": " + words(row.get(i)));
        }
      }
      wrapped("- ", words(row.get(0)) + "; " + String.join("; ", cells));
    }
  }

  private static String words(Block.Cell cell) {
    return cell.figures().isEmpty() ? cell.text() : cell.text() + " [" + cell.figures() + "]";
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
