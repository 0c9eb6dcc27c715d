package org.gradus.testkit;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;

/**
 * Something that must hold in every test, with a name and a sentence that says it.
 *
 * <pre>{@code
 * static final Law CAREFUL =
 *     Law.always(
 *         "careful",
 *         "Nobody advances at 130 bpm or more.",
 *         moment ->
 *             moment.answer().filter(now -> now.verdict() instanceof Verdict.Advance).isEmpty()
 *                 || moment.last("heart_rate").filter(rate -> rate.base() >= 130).isEmpty());
 *
 * @Property
 * void nobodyAdvancesAtAHighRate(@ForAll("tests") TestScript test) {
 *   CAREFUL.check(test);
 * }
 * }</pre>
 */
public final class Law {

  private final String name;
  private final String says;
  private final Function<TestScript, Watch> watch;

  private Law(String name, String says, Function<TestScript, Watch> watch) {
    this.name = name;
    this.says = says;
    this.watch = watch;
  }

  /**
   * A law that needs to remember, or to try things.
   *
   * @param name a short name
   * @param says the law in a sentence
   * @param watch what looks on while a script is played; called anew for every play
   */
  public static Law of(String name, String says, Function<TestScript, Watch> watch) {
    requireNonNull(name, "name");
    requireNonNull(says, "says");
    requireNonNull(watch, "watch");
    return new Law(name, says, watch);
  }

  /**
   * A law that holds or does not after every single step.
   *
   * @param name a short name
   * @param says the law in a sentence
   * @param holds whether it holds
   */
  public static Law always(String name, String says, Predicate<Moment> holds) {
    requireNonNull(holds, "holds");
    requireNonNull(name, "name");
    requireNonNull(says, "says");
    return of(
        name,
        says,
        test ->
            new Watch() {
              @Override
              public void after(Moment moment) {
                Watch.demand(holds.test(moment), "after this step it does not hold");
              }
            });
  }

  /** Its short name: {@code a-stop-stays}. */
  public String name() {
    return name;
  }

  /** What it says, in a sentence. */
  public String says() {
    return says;
  }

  Watch watch(TestScript test) {
    return watch.apply(test);
  }

  /**
   * Plays a script and looks whether the law holds.
   *
   * @throws LawBroken when it does not; the message names the law, the protocol, the person and
   *     everything that was done up to then, each with its answer
   */
  public void check(TestScript test) {
    requireNonNull(test, "test");
    new Player(test, List.of(this)).play();
  }

  /** Name and sentence. */
  @Override
  public String toString() {
    return name + ": " + says;
  }
}
