package org.gradus.report;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.gradus.diagnostic.Printable;

/**
 * A report as one HTML file: no script, nothing to fetch. Headings, table heads and the words of
 * the pictures carry it for a screen reader; wide tables scroll on a phone and break on paper. The
 * first page is one sheet on paper; formulas are folded away on the screen and small on paper.
 */
final class HtmlPage implements Block.Page {

  private static final String STYLE =
      """
      :root { color-scheme: light dark; --ink: #1c2126; --soft: #525c67; --paper: #fff;
        --line: #c4cad1; --tint: #e9eff6; --blue: #0b4f8a; --alarm: #96200a; }
      @media (prefers-color-scheme: dark) { :root { --ink: #e6e9ec; --soft: #aab4be;
        --paper: #15191d; --line: #46505a; --tint: #212a34; --blue: #8cc1f5; --alarm: #ffa48f; } }
      * { box-sizing: border-box; }
      body { font: 16px/1.45 system-ui, sans-serif; color: var(--ink); background: var(--paper);
        margin: 0 auto; max-width: 58rem; padding: 1rem; overflow-wrap: break-word; }
      h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 0.75rem; }
      h2 { font-size: 1.1rem; line-height: 1.25; margin: 1.5rem 0 0.4rem; padding-top: 0.4rem;
        border-top: 1px solid var(--line); }
      p { margin: 0.35rem 0; } ul, ol { margin: 0.35rem 0; padding-left: 1.4rem; }
      .answer { font-size: 1.9rem; font-weight: 700; margin: 0.25rem 0 0; line-height: 1.2; }
      .around { font-size: 1.15rem; margin: 0 0 0.35rem; }
      .warning { border: 1px solid var(--alarm); border-left-width: 0.5rem;
        padding: 0.4rem 0.7rem; margin: 0.5rem 0; }
      .warning strong { color: var(--alarm); }
      dl { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(18rem, 100%), 1fr));
        gap: 0.15rem 1.2rem; margin: 0; } dl div { display: flex; gap: 0.6rem; }
      dt { color: var(--soft); } dd { margin: 0; font-weight: 600; overflow-wrap: anywhere; }
      .scroll { overflow-x: auto; margin: 0.6rem 0; }
      .scroll:focus-visible, summary:focus-visible { outline: 3px solid var(--blue); }
      table { border-collapse: collapse; width: 100%; font-size: 0.9rem; }
      caption { text-align: left; color: var(--soft); padding-bottom: 0.25rem; }
      #decisions ~ .scroll td:nth-child(2) { min-width: 10em; }
      th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.5rem 0.25rem 0;
        border-bottom: 1px solid var(--line); }
      thead th { border-bottom: 2px solid var(--ink); vertical-align: bottom; }
      tbody th { font-weight: 600; }
      .share { display: inline-block; width: 6em; margin-left: 0.5em; background: var(--tint); }
      .share i { display: block; height: 0.6em; background: var(--blue); }
      .figures { color: var(--soft); } summary { min-height: 24px; cursor: pointer; }
      figure { margin: 0.6rem 0; } svg { display: block; width: 100%; height: auto; font: 14px system-ui, sans-serif; fill: var(--ink); }
      figcaption { font-size: 0.9rem; color: var(--soft); }
      figcaption b { color: var(--ink); font-weight: 600; }
      .soft { fill: var(--soft); } .small { font-size: 12px; } .strong { font-weight: 700; }
      .grid { stroke: var(--line); } .axis { stroke: var(--ink); stroke-width: 1.5; }
      .tick { stroke: var(--ink); stroke-width: 2; }
      .dashed { stroke: var(--ink); stroke-dasharray: 6 5; }
      .slope { stroke: var(--blue); stroke-width: 2; } .bar, .cuff { stroke-width: 4; }
      .bar { stroke: var(--alarm); } .mark { fill: var(--alarm); }
      .cuff { stroke: var(--soft); } .tint { fill: var(--tint); }
      .full, .hollow { stroke: var(--blue); stroke-width: 2.5; fill: var(--blue); }
      .hollow { fill: var(--paper); } .used, .unused { fill: var(--tint); stroke: var(--soft); }
      .used { stroke: var(--ink); stroke-width: 3; }
      .signature { display: flex; gap: 2rem; margin-top: 2.4rem; }
      .signature span { flex: 2; border-top: 1px solid var(--ink); padding-top: 0.2rem;
        color: var(--soft); } .signature span:first-child { flex: 1; }
      @media (min-width: 44rem) { .beside { display: grid; column-gap: 1.5rem;
          grid-template-columns: 1fr 1fr; } .beside > * { grid-column: 1; }
        .beside > h2 { grid-column: 1 / -1; }
        .beside > figure { grid-column: 2; grid-row: 2 / span 9; } }
      @media (max-width: 34rem) { .wide { min-width: 34rem; } }
      @media (max-width: 44rem) {
        .answer { font-size: 1.6rem; } table { width: max-content; min-width: 100%; }
        td, th { max-width: 16rem; } }
      @media print {
        :root { color-scheme: light; --ink: #000; --soft: #3d444b; --paper: #fff;
          --line: #b3b9c0; --tint: #e9eff6; --blue: #0b4f8a; --alarm: #96200a; }
        @page { margin: 8mm 14mm; }
        body { max-width: none; padding: 0; font-size: 8.5pt; line-height: 1.3;
          print-color-adjust: exact; -webkit-print-color-adjust: exact; }
        h1 { font-size: 13pt; margin-bottom: 3pt; }
        h2 { font-size: 10pt; margin: 5pt 0 2pt; padding-top: 3pt; break-after: avoid; }
        p, ul, ol { margin: 2pt 0; } .answer { font-size: 15pt; } .around { font-size: 10pt; }
        .warning { padding: 2pt 6pt; margin: 3pt 0; } figure, .scroll { margin: 3pt 0; }
        .scroll { overflow: visible; } table { width: 100%; font-size: 7.5pt; }
        th, td { padding: 1.2pt 5pt 1.2pt 0; max-width: none; }
        figcaption, caption { font-size: 7.5pt; } caption { break-after: avoid; }
        .beside { display: grid; column-gap: 14pt; grid-template-columns: 1fr 1fr; }
        .beside > * { grid-column: 1; } .beside > h2 { grid-column: 1 / -1; }
        .beside > figure { grid-column: 2; grid-row: 2 / span 9; margin: 0; }
        dl { display: flex; flex-wrap: wrap; gap: 1pt 16pt; } dl div { gap: 4pt; }
        .details dl { font-size: 7pt; } .details dd { font-weight: 400; }
        .first ul { columns: 2; column-gap: 16pt; } .first .beside ul { columns: auto; }
        .details { font-size: 7.8pt; } .details table { font-size: 7.2pt; } .details svg { max-width: 92mm !important; }
        .details .wide { font-size: 17px; } .details th, .details td { padding-top: 0.8pt; padding-bottom: 0.8pt; }
        .first .wide { font-size: 15px; max-width: 108mm !important; } svg { font-size: 14px; } .wide .small { font-size: 13px; }
        .pair { display: grid; column-gap: 14pt; grid-template-columns: 1fr 1fr; }
        .pair > h2 { grid-column: 1 / -1; }
        .columns { columns: 2; column-gap: 16pt; font-size: 7pt; padding-left: 12pt; }
        tr, figure, .warning, .signature, li { break-inside: avoid; }
        thead { display: table-header-group; break-after: avoid; }
        tbody tr:first-child { break-before: avoid; } p { orphans: 3; widows: 3; }
        .details { break-before: page; } .details > section:first-child > h2 { border: 0; }
        summary { display: none; } .figures { font-size: 6.5pt; }
        details::details-content { content-visibility: visible; display: block; height: auto; }
        .signature { margin: 12pt 0 0; } .test { break-before: page; }
      }
      """;

  /** Wider pictures scroll on a phone. */
  private static final double NARROW = 480;

  /** How many pictures there are so far, so that each has names of its own. */
  private int pictures;

  // Tells the titles of several tests on one page apart.
  private String prefix = "";

  private final Words words;
  private final StringBuilder out = new StringBuilder();

  HtmlPage(Words words) {
    this.words = words;
  }

  /** One test on a page. */
  String write(String title, List<Section> sections) {
    begin(title);
    test(title, sections);
    return end();
  }

  /** Several tests one after the other, each beginning on a sheet of its own. */
  String write(String title, Map<String, List<Section>> tests) {
    begin(title);
    element("h1", title);
    int number = 0;
    for (Map.Entry<String, List<Section>> one : tests.entrySet()) {
      number++;
      prefix = "test-" + number + "-";
      out.append("<article class=\"test\">\n");
      test(one.getKey(), one.getValue());
      out.append("</article>\n");
    }
    return end();
  }

  private void begin(String title) {
    out.append("<!doctype html>\n<html lang=\"")
        .append(escaped(words.language()))
        .append("\">\n<head>\n");
    out.append("<meta charset=\"utf-8\">\n");
    out.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    out.append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';");
    out.append(" style-src 'unsafe-inline'\">\n");
    out.append("<meta name=\"referrer\" content=\"no-referrer\">\n");
    out.append("<title>").append(escaped(title)).append("</title>\n<style>\n");
    out.append(STYLE).append("</style>\n</head>\n<body>\n<main>\n");
  }

  private void test(String title, List<Section> sections) {
    element("h1", title);
    part("first", Section.Place.FIRST_PAGE, sections);
    part("details", Section.Place.DETAILS, sections);
  }

  private String end() {
    return out.append("</main>\n</body>\n</html>\n").toString();
  }

  private void part(String name, Section.Place place, List<Section> sections) {
    out.append("<div class=\"").append(name).append("\">\n");
    for (Section section : sections) {
      if (section.place() == place) {
        String id = prefix + section.title().toLowerCase(Locale.ROOT).replace(' ', '-');
        out.append("<section").append(look(section)).append(" aria-labelledby=\"").append(id);
        out.append("\">\n<h2 id=\"");
        out.append(id).append("\">").append(escaped(section.title())).append("</h2>\n");
        section.blocks().forEach(block -> block.on(this));
        out.append("</section>\n");
      }
    }
    out.append("</div>\n");
  }

  // On paper and on a wide screen the answer stands beside its picture, and tables that belong
  // together stand beside each other.
  private static String look(Section section) {
    List<Block> blocks = section.blocks();
    if (blocks.stream().anyMatch(Block.Answer.class::isInstance)) {
      return " class=\"beside\"";
    }
    boolean tables = blocks.stream().allMatch(Block.Table.class::isInstance);
    return tables && blocks.size() == 2 ? " class=\"pair\"" : "";
  }

  @Override
  public void paragraph(Block.Paragraph paragraph) {
    element("p", paragraph.text());
  }

  @Override
  public void warning(Block.Warning warning) {
    out.append("<p class=\"warning\" role=\"note\"><strong>");
    out.append(escaped(warning.lead())).append(":</strong> ");
    out.append(escaped(warning.text())).append("</p>\n");
  }

  @Override
  public void answer(Block.Answer answer) {
    out.append("<p class=\"answer\">").append(together(answer.value())).append("</p>\n");
    out.append("<p class=\"around\">").append(escaped(answer.around())).append("</p>\n");
  }

  @Override
  public void items(Block.Items items) {
    list("ul", items.items());
  }

  @Override
  public void sources(Block.Sources sources) {
    list("ol class=\"columns\"", sources.texts());
  }

  private void list(String open, List<String> items) {
    if (!items.isEmpty()) {
      out.append('<').append(open).append(">\n");
      items.forEach(item -> element("li", item));
      out.append("</").append(open, 0, 2).append(">\n");
    }
  }

  // A name may be written from right to left: it must not turn what follows it.
  @Override
  public void facts(Block.Facts facts) {
    out.append("<dl>\n");
    for (Block.Fact fact : facts.facts()) {
      out.append("<div><dt>").append(escaped(fact.name())).append("</dt><dd><bdi>");
      out.append(escaped(fact.value())).append("</bdi></dd></div>\n");
    }
    out.append("</dl>\n");
  }

  @Override
  public void picture(Block.Picture picture) {
    Figure figure = picture.figure();
    String name = "figure-" + ++pictures;
    Svg svg = new Svg();
    figure.draw(svg);
    boolean wide = figure.width() > NARROW;
    out.append("<figure>\n");
    if (wide) {
      scroll(escaped(figure.title()));
    }
    out.append("<svg")
        .append(wide ? " class=\"wide\"" : "")
        .append(" viewBox=\"0 0 ")
        .append((int) figure.width())
        .append(' ');
    out.append((int) Math.ceil(figure.height())).append("\" style=\"max-width:");
    out.append((int) figure.width()).append("px\" role=\"img\" aria-labelledby=\"");
    out.append(name).append("-title ").append(name).append("-words\">\n<title id=\"");
    out.append(name).append("-title\">").append(escaped(figure.title())).append("</title>\n");
    out.append("<desc id=\"").append(name).append("-words\">");
    out.append(escaped(figure.words())).append("</desc>\n").append(svg.shapes());
    out.append(wide ? "</svg>\n</div>\n" : "</svg>\n")
        .append("<figcaption><b>")
        .append(escaped(figure.title()))
        .append(".</b> ");
    out.append(escaped(figure.legend())).append("</figcaption>\n</figure>\n");
  }

  @Override
  public void signature(Block.Signature signature) {
    out.append("<p class=\"signature\">");
    signature.lines().forEach(line -> out.append("<span>").append(escaped(line)).append("</span>"));
    out.append("</p>\n");
  }

  @Override
  public void table(Block.Table table) {
    String caption = escaped(table.caption());
    scroll(caption);
    out.append("<table>\n<caption>").append(caption).append("</caption>\n");
    out.append("<thead><tr>");
    table.heads().forEach(head -> cell("th scope=\"col\"", "th", new Block.Cell(head)));
    out.append("</tr></thead>\n<tbody>\n");
    for (List<Block.Cell> row : table.rows()) {
      out.append("<tr>");
      cell("th scope=\"row\"", "th", row.get(0));
      row.subList(1, row.size()).forEach(value -> cell("td", "td", value));
      out.append("</tr>\n");
    }
    out.append("</tbody>\n</table>\n</div>\n");
  }

  // What is too wide for a phone scrolls in a frame of its own, also by keyboard.
  private void scroll(String label) {
    out.append("<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"");
    out.append(label).append("\">\n");
  }

  private void cell(String open, String close, Block.Cell cell) {
    out.append('<').append(open).append('>').append(together(cell.text()));
    if (cell.share() > 0) {
      out.append("<span class=\"share\"><i style=\"width:").append(cell.share());
      out.append("%\"></i></span>");
    }
    if (!cell.figures().isEmpty()) {
      out.append("<details class=\"figures\"><summary>")
          .append(escaped(words.say(ReportMessage.WITH_FIGURES)))
          .append("</summary>");
      out.append(escaped(cell.figures())).append("</details>");
    }
    out.append("</").append(close).append('>');
  }

  // A figure and its unit stay in one line of a narrow column.
  private static String together(String text) {
    return escaped(text)
        .replaceAll(
            "(?<=[0-9]) (?=(?:%|[a-zA-Z]+(?:/[a-z]+)+|bpm|mph|mmHg|min|s|W|MET|kcal)\\b|%)",
            "\u00a0");
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
