package org.gradus.examples.workbench;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.gradus.history.Json;
import org.gradus.review.Review;
import org.gradus.review.ReviewFinding;
import org.gradus.session.Times;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Reviews a protocol. */
@Command(
    name = "review",
    description = "Reviews a protocol and shows what its author may not have intended.")
final class ReviewCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Mixin private Settings settings = new Settings();

  @Parameters(paramLabel = "ID", description = "The protocol.")
  private String id = "";

  @Option(names = "--json", description = "Write the findings as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    Review review = Review.of(settings.in(context.protocol(id)));
    if (json) {
      Map<String, Object> map = new LinkedHashMap<>();
      map.put("protocol", review.protocol());
      map.put("findings", review.findings().stream().map(ReviewCommand::map).toList());
      map.put(
          "accepted", review.accepted().stream().map(accepted -> map(accepted.finding())).toList());
      map.put("points", review.points());
      context.out().println(Json.write(map));
    } else {
      review.findings().forEach(finding -> context.line(finding + "\n\n"));
      review.findings().stream().findFirst().ifPresent(this::accept);
      context.line(sum(review));
    }
    return review.isClean() ? Workbench.WELL : Workbench.FOUND;
  }

  // The first finding serves as the example.
  private void accept(ReviewFinding finding) {
    context.line(
        String.format(
            Locale.ROOT,
            "To accept a finding, add it to the protocol's file with a reason:%n"
                + "accept:%n"
                + "  - finding: %s%n"
                + "    of: %s%n"
                + "    reason: ...%n%n",
            finding.check().code(),
            finding.about()));
  }

  private static String sum(Review review) {
    List<String> lines =
        List.of(
            review.findings().size()
                + (review.findings().size() == 1 ? " finding, " : " findings, ")
                + review.accepted().size()
                + " accepted in the file; rules were tried on "
                + review.points()
                + " points",
            "the shortest test ends after "
                + Times.clock(review.lengths().shortest())
                + ", the longest exercise after "
                + Times.clock(review.lengths().exercise())
                + ", with recovery "
                + Times.clock(review.lengths().whole()));
    return String.join(System.lineSeparator(), lines);
  }

  private static Map<String, Object> map(ReviewFinding finding) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("code", finding.check().code());
    map.put("severity", finding.check().severity().word());
    map.put("about", finding.about());
    map.put("file", finding.where().file().name());
    map.put("line", finding.where().line());
    map.put("message", finding.message());
    map.put("example", finding.example());
    map.put("help", finding.check().help());
    return map;
  }
}
