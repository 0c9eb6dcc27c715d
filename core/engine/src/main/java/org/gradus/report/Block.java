package org.gradus.report;

import java.util.List;

/** A piece of a report, in words; how it looks is the business of a page. */
sealed interface Block {

  /** Hands this block to the method for its kind. */
  void on(Page page);

  /** What writes blocks: one method for each kind, so that no page can forget one. */
  interface Page {
    /** Writes a sentence or a few. */
    void paragraph(Paragraph block);

    /** Writes what must not be overlooked. */
    void warning(Warning block);

    /** Writes the answer that everything else is about. */
    void answer(Answer block);

    /** Writes sentences that stand beside each other. */
    void items(Items block);

    /** Writes the numbered sources. */
    void sources(Sources block);

    /** Writes names with values. */
    void facts(Facts block);

    /** Writes a table. */
    void table(Table block);

    /** Writes a picture. */
    void picture(Picture block);

    /** Writes a line to sign on. */
    void signature(Signature block);
  }

  /** A sentence or a few. */
  record Paragraph(String text) implements Block {
    @Override
    public void on(Page page) {
      page.paragraph(this);
    }
  }

  /**
   * What must not be overlooked.
   *
   * @param lead the word or two before it: {@code Caution}
   */
  record Warning(String lead, String text) implements Block {

    @Override
    public void on(Page page) {
      page.warning(this);
    }
  }

  /** The answer that everything else is about. */
  record Answer(String value, String around) implements Block {
    @Override
    public void on(Page page) {
      page.answer(this);
    }
  }

  /** Sentences that stand beside each other. */
  record Items(List<String> items) implements Block {
    public Items {
      items = List.copyOf(items);
    }

    @Override
    public void on(Page page) {
      page.items(this);
    }
  }

  /** The sources, in the order of their numbers from 1. */
  record Sources(List<String> texts) implements Block {
    public Sources {
      texts = List.copyOf(texts);
    }

    @Override
    public void on(Page page) {
      page.sources(this);
    }
  }

  /** Names with values. */
  record Facts(List<Fact> facts) implements Block {
    public Facts {
      facts = List.copyOf(facts);
    }

    @Override
    public void on(Page page) {
      page.facts(this);
    }
  }

  /** A name with its value. */
  record Fact(String name, String value) {}

  /**
   * What stands in a cell of a table.
   *
   * @param text what is read first
   * @param figures the formula behind it with its figures, or empty: folded away on a screen, small
   *     on paper
   * @param share a share in per cent that is drawn as a bar beside the text; 0 for none
   */
  record Cell(String text, String figures, int share) {

    /** A plain cell. */
    Cell(String text) {
      this(text, "", 0);
    }
  }

  /**
   * A table.
   *
   * @param caption what it shows
   * @param heads the heads of its columns; the first cell of a row is its head
   * @param rows its rows
   */
  record Table(String caption, List<String> heads, List<List<Cell>> rows) implements Block {
    public Table {
      heads = List.copyOf(heads);
      rows = List.copyOf(rows);
    }

    /** A table of plain texts. */
    static Table of(String caption, List<String> heads, List<List<String>> rows) {
      return new Table(
          caption, heads, rows.stream().map(row -> row.stream().map(Cell::new).toList()).toList());
    }

    @Override
    public void on(Page page) {
      page.table(this);
    }
  }

  /** A picture. */
  record Picture(Figure figure) implements Block {
    @Override
    public void on(Page page) {
      page.picture(this);
    }
  }

  /** A line to sign on. */
  record Signature(List<String> lines) implements Block {
    public Signature {
      lines = List.copyOf(lines);
    }

    @Override
    public void on(Page page) {
      page.signature(this);
    }
  }
}
