package org.gradus.report;

import java.util.List;
import java.util.Locale;
import org.gradus.diagnostic.Printable;

/**
 * A report as one HTML file: no script, nothing to fetch. Headings, table heads and the words of
 * the drawing carry it for a screen reader; wide tables scroll on a phone and break on paper.
 */
final class HtmlPage {

  private static final String STYLE =
      """
      :root { color-scheme: light; }
      body { font: 16px/1.5 system-ui, sans-serif; color: #1a1a1a; background: #fff;
        margin: 0 auto; max-width: 62rem; padding: 1rem; overflow-wrap: anywhere; }
      h1 { font-size: 1.6rem; line-height: 1.2; margin: 0.5rem 0 1rem; }
      h2 { font-size: 1.2rem; margin: 2rem 0 0.5rem; border-bottom: 2px solid #1a1a1a; }
      .answer { font-size: 2rem; font-weight: 700; margin: 0.5rem 0 0; line-height: 1.2; }
      .around { font-size: 1.2rem; margin: 0 0 0.5rem; }
      .warning { border: 2px solid #8a1c00; border-left-width: 0.6rem; padding: 0.5rem 0.75rem;
        margin: 0.75rem 0; }
      .warning strong { color: #8a1c00; }
      dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.1rem 1rem; margin: 0; }
      dt { font-weight: 600; } dd { margin: 0; }
      .scroll { overflow-x: auto; margin: 0.75rem 0; }
      .scroll:focus-visible, a:focus-visible { outline: 3px solid #0b57a4; }
      table { border-collapse: collapse; width: 100%; font-size: 0.9rem; }
      caption { text-align: left; font-weight: 600; padding-bottom: 0.25rem; }
      th, td { text-align: left; vertical-align: top; padding: 0.3rem 0.5rem;
        border-bottom: 1px solid #8a8a8a; min-width: 3.6rem; overflow-wrap: normal; }
      thead th { border-bottom: 2px solid #1a1a1a; }
      tbody th { font-weight: 600; }
      td:last-child { min-width: 8rem; }
      figure { margin: 1rem 0; } svg { width: 100%; height: auto; max-width: 46rem; }
      figcaption { font-size: 0.9rem; }
      @media (max-width: 40rem) { dl { grid-template-columns: minmax(6rem, 9rem) 1fr; }
        svg { font-size: 20px; } .answer { font-size: 1.6rem; }
        table { width: max-content; min-width: 100%; } td { max-width: 18rem; } }
      @media print { body { max-width: none; padding: 0; font-size: 10pt; }
        .scroll { overflow: visible; } table { width: 100%; font-size: 8pt; }
        th, td { min-width: 0; overflow-wrap: anywhere; padding: 0.15rem 0.3rem; }
        td:last-child { min-width: 0; }
        tr, figure, .warning, dl { break-inside: avoid; } h2, caption { break-after: avoid; }
        thead { display: table-header-group; } @page { margin: 15mm; } }
      """;

  private final String language;
  private final StringBuilder out = new StringBuilder();

  HtmlPage(String language) {
    this.language = language;
  }

  String write(String title, List<Section> sections) {
    out.append("<!doctype html>\n<html lang=\"").append(escaped(language)).append("\">\n<head>\n");
    out.append("<meta charset=\"utf-8\">\n");
    out.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    out.append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';");
    out.append(" style-src 'unsafe-inline'\">\n");
    out.append("<meta name=\"referrer\" content=\"no-referrer\">\n");
    out.append("<title>").append(escaped(title)).append("</title>\n<style>\n");
    out.append(STYLE).append("</style>\n</head>\n<body>\n<main>\n");
    element("h1", title);
    for (Section section : sections) {
      String id = section.title().toLowerCase(Locale.ROOT).replace(' ', '-');
      out.append("<section aria-labelledby=\"").append(id).append("\">\n<h2 id=\"");
      out.append(id).append("\">").append(escaped(section.title())).append("</h2>\n");
      section.blocks().forEach(this::block);
      out.append("</section>\n");
    }
    return out.append("</main>\n</body>\n</html>\n").toString();
  }

  private void block(Block block) {
    if (block instanceof Block.Paragraph paragraph) {
      element("p", paragraph.text());
    } else if (block instanceof Block.Warning warning) {
      out.append("<p class=\"warning\" role=\"note\"><strong>Caution:</strong> ");
      out.append(escaped(warning.text())).append("</p>\n");
    } else if (block instanceof Block.Answer answer) {
      out.append("<p class=\"answer\">").append(escaped(answer.value())).append("</p>\n");
      out.append("<p class=\"around\">").append(escaped(answer.around())).append("</p>\n");
    } else if (block instanceof Block.Items items) {
      items(items.items());
    } else if (block instanceof Block.Facts facts) {
      facts(facts.facts());
    } else if (block instanceof Block.Table table) {
      table(table);
    } else if (block instanceof Block.Picture picture) {
      out.append("<figure>\n").append(new Drawing(picture.chart()).svg());
      out.append(
          "<figcaption>Heart rate against oxygen uptake. Filled: used for the estimate; hollow: not"
              + " used. The bar is the 95 % interval.</figcaption>\n</figure>\n");
    }
  }

  private void items(List<String> items) {
    if (!items.isEmpty()) {
      out.append("<ul>\n");
      items.forEach(item -> element("li", item));
      out.append("</ul>\n");
    }
  }

  // A name may be written from right to left: it must not turn what follows it.
  private void facts(List<Block.Fact> facts) {
    out.append("<dl>\n");
    for (Block.Fact fact : facts) {
      element("dt", fact.name());
      out.append("<dd><bdi>").append(escaped(fact.value())).append("</bdi></dd>\n");
    }
    out.append("</dl>\n");
  }

  private void table(Block.Table table) {
    String caption = escaped(table.caption());
    out.append("<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"");
    out.append(caption).append("\">\n<table>\n<caption>").append(caption).append("</caption>\n");
    out.append("<thead><tr>");
    table.heads().forEach(head -> cell("th scope=\"col\"", "th", head));
    out.append("</tr></thead>\n<tbody>\n");
    for (List<String> row : table.rows()) {
      out.append("<tr>");
      cell("th scope=\"row\"", "th", row.get(0));
      row.subList(1, row.size()).forEach(value -> cell("td", "td", value));
      out.append("</tr>\n");
    }
    out.append("</tbody>\n</table>\n</div>\n");
  }

  private void cell(String open, String close, String text) {
    out.append('<').append(open).append('>').append(escaped(text));
    out.append("</").append(close).append('>');
  }

  private void element(String name, String text) {
    out.append('<').append(name).append('>').append(escaped(text));
    out.append("</").append(name).append(">\n");
  }

  /** A text that stands for itself in HTML and in SVG. */
  static String escaped(String text) {
    StringBuilder safe = new StringBuilder(text.length() + 16);
    text.codePoints().forEach(point -> append(point, safe));
    return safe.toString();
  }

  private static void append(int point, StringBuilder safe) {
    switch (point) {
      case '&' -> safe.append("&amp;");
      case '<' -> safe.append("&lt;");
      case '>' -> safe.append("&gt;");
      case '"' -> safe.append("&quot;");
      case '\'' -> safe.append("&#39;");
      case '\n', '\t', '\r' -> safe.append(' ');
      default -> safe.appendCodePoint(Printable.isPlain(point) ? point : 0xFFFD);
    }
  }
}
