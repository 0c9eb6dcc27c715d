package org.gradus.rule.check;

import java.util.Collection;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Diagnostic.Label;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/**
 * What is found out about one tree while it is checked: the meanings of its names, the types of its
 * parts, and what is wrong.
 */
final class Findings {

  private final Vocabulary vocabulary;
  private final Layout.Builder layout;
  private final Problems problems;
  private final boolean insideEquation;
  private final IdentityHashMap<Expression, Type> types = new IdentityHashMap<>();
  private final IdentityHashMap<Expression, PartMeaning> meanings = new IdentityHashMap<>();

  Findings(Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    this(vocabulary, layout, problems, false);
  }

  private Findings(
      Vocabulary vocabulary, Layout.Builder layout, Problems problems, boolean insideEquation) {
    this.vocabulary = vocabulary;
    this.layout = layout;
    this.problems = problems;
    this.insideEquation = insideEquation;
  }

  /** Findings about the tree of an equation, against the same names. */
  Findings insideEquation() {
    return new Findings(vocabulary, layout, problems, true);
  }

  /** Whether the tree is that of an equation, which may not be solved for by way of another. */
  boolean isInsideEquation() {
    return insideEquation;
  }

  /** The tree with what was found out; nothing when it is larger than anybody could follow. */
  Optional<Checked> close(Expression root) {
    Checked checked = new Checked(root, types, meanings);
    TreeSize extent = checked.extent();
    boolean small =
        within(root, extent.parts(), TreeSize.MOST_PARTS, "parts with its definitions written out")
            && within(root, extent.depth(), TreeSize.MOST_DEEP, "definitions inside each other")
            && within(
                root,
                layout.partsWith(extent.parts()),
                TreeSize.MOST_PARTS_OF_ALL,
                "parts together with the texts before it, definitions written out");
    return small ? Optional.of(checked) : Optional.empty();
  }

  private boolean within(Expression root, int count, int most, String what) {
    if (count > most) {
      String help = "let fewer definitions rest on each other";
      problem(root.span(), Code.G105, count + " " + what, Integer.toString(most), help);
    }
    return count <= most;
  }

  void typed(Expression part, Type type) {
    types.put(part, type);
  }

  void means(Expression part, PartMeaning meaning) {
    meanings.put(part, meaning);
  }

  PartMeaning.Slot slot(Demand demand) {
    return new PartMeaning.Slot(layout.slot(demand), demand);
  }

  Optional<Symbol> symbol(Expression part) {
    return part instanceof Expression.Reference reference
        ? vocabulary.meaning(reference.name())
        : Optional.empty();
  }

  /** The ids of the stages, of which the name stage is a choice. */
  List<String> stages() {
    return vocabulary
        .meaning("stage")
        .map(Symbol::type)
        .filter(Type.Choice.class::isInstance)
        .map(ids -> ((Type.Choice) ids).options())
        .orElse(List.of());
  }

  /** What a name evaluates to; its meaning is noted. */
  Optional<Type> reference(Expression.Reference reference) {
    Symbol symbol = vocabulary.meaning(reference.name()).orElse(null);
    if (symbol == null) {
      String otherwise = "define it, or declare it as a setting, input or sign";
      String help = help(reference.name(), vocabulary.names(), otherwise);
      problem(reference.span(), Code.G201, reference.name(), help);
      return Optional.empty();
    }
    Optional<PartMeaning> meaning = symbol.accept(new MeaningOf(reference));
    meaning.ifPresent(found -> means(reference, found));
    return meaning.map(found -> symbol.type());
  }

  /** What a name means; nothing where it has no value of its own, which is noted. */
  private final class MeaningOf implements Symbol.Visitor<Optional<PartMeaning>> {

    private final Expression.Reference reference;

    MeaningOf(Expression.Reference reference) {
      this.reference = reference;
    }

    @Override
    public Optional<PartMeaning> datum(Symbol.Datum datum) {
      return Optional.of(slot(datum.demand()));
    }

    @Override
    public Optional<PartMeaning> figure(Symbol.Figure figure) {
      return Optional.of(new PartMeaning.Fixed(figure.value()));
    }

    @Override
    public Optional<PartMeaning> word(Symbol.Word word) {
      return Optional.of(new PartMeaning.FixedWord(word.word()));
    }

    @Override
    public Optional<PartMeaning> definition(Symbol.Definition definition) {
      return Optional.of(new PartMeaning.Use(definition.term()));
    }

    @Override
    public Optional<PartMeaning> solvable(Symbol.Solvable solvable) {
      String help = "name it in cost, or write load_for(" + reference.name() + ", ...)";
      problem(reference.span(), Code.G208, "the equation " + solvable.equation().name(), help);
      return Optional.empty();
    }

    @Override
    public Optional<PartMeaning> tabled(Symbol.Tabled tabled) {
      String help = "write lookup(" + reference.name() + ", ...)";
      problem(reference.span(), Code.G208, "the table " + tabled.table().name(), help);
      return Optional.empty();
    }

    // What is wrong with it has been said where it is defined.
    @Override
    public Optional<PartMeaning> faulty(Symbol.Faulty faulty) {
      return Optional.empty();
    }
  }

  /** The value of a part that is fixed when the file is read. */
  Optional<Quantity> constant(Expression part) {
    if (part instanceof Expression.Literal literal) {
      return Optional.of(literal.quantity());
    }
    return symbol(part)
        .filter(Symbol.Figure.class::isInstance)
        .map(figure -> ((Symbol.Figure) figure).value());
  }

  /** What was probably meant by a word, or a piece of advice. */
  String help(String word, Collection<String> known, String otherwise) {
    return problems.help(word, known, otherwise);
  }

  void problem(Span where, Code code, String... arguments) {
    problems.add(where, code, arguments);
  }

  /** Whether a part is a name of which it has been said already that it is wrong. */
  boolean isFaulty(Expression part) {
    return symbol(part).filter(Symbol.Faulty.class::isInstance).isPresent();
  }

  /**
   * Notes that an argument must be the name of something else.
   *
   * @param fitting which symbols it could be the name of
   */
  void needsName(Expression.Call call, String what, Predicate<Symbol> fitting, String otherwise) {
    if (isFaulty(call.arguments().get(0))) {
      return;
    }
    Span argument = call.arguments().get(0).span();
    List<String> names =
        vocabulary.names().stream()
            .filter(name -> vocabulary.meaning(name).filter(fitting).isPresent())
            .toList();
    String help = help(argument.text(), names, otherwise);
    problem(argument, Code.G213, call.function().text(), what, help);
  }

  /** Notes that two parts do not go together. */
  void mismatch(Code code, Expression left, Type first, Expression right, Type second) {
    // The later part is the likelier slip: the text reads well up to there.
    problems.add(
        new Diagnostic(
            code,
            List.of(new Label(right.span(), noun(second)), new Label(left.span(), noun(first))),
            List.of(first.phrase(), second.phrase(), unit(first, second))));
  }

  // Beats, turns and steps are rates of their own, and often written like any frequency.
  private static String unit(Type first, Type second) {
    String unit = unitOf(first).or(() -> unitOf(second)).orElse("%");
    List<Kind> kinds =
        Stream.of(first, second)
            .flatMap(type -> type instanceof Type.Measure m ? Stream.of(m.kind()) : Stream.empty())
            .toList();
    Optional<Kind> rate =
        Stream.of(Kind.HEART_RATE, Kind.PEDAL_RATE, Kind.STEP_RATE)
            .filter(kinds::contains)
            .findFirst();
    return rate.isPresent() && kinds.contains(Kind.FREQUENCY)
        ? rate.get().base().symbol() + "; /min is the unit of strokes and breaths"
        : unit;
  }

  private static String noun(Type type) {
    return type instanceof Type.Measure measure ? measure.kind().words() : type.phrase();
  }

  private static Optional<String> unitOf(Type type) {
    return type instanceof Type.Measure measure && measure.kind() != Kind.NUMBER
        ? Optional.of(measure.kind().base().symbol())
        : Optional.empty();
  }
}
