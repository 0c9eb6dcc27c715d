package org.gradus.rule.check;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Suggestion;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/** The checks of {@code load_for}: that the equation can be solved for the load. */
final class Solving {

  private final Checker checker;
  private final Findings findings;

  Solving(Checker checker, Findings findings) {
    this.checker = checker;
    this.findings = findings;
  }

  Optional<Type> loadFor(Expression.Call call) {
    Optional<Kind> wanted = checker.kind(call.arguments().get(2));
    Optional<SolvableEquation> equation =
        findings
            .symbol(call.arguments().get(0))
            .filter(Symbol.Solvable.class::isInstance)
            .map(symbol -> ((Symbol.Solvable) symbol).equation());
    if (equation.isEmpty()) {
      findings.needsName(
          call,
          "an equation",
          Symbol.Solvable.class::isInstance,
          "the equations stand under costs");
      return Optional.empty();
    }
    if (findings.isInsideEquation()) {
      String help = "write out what is solved for";
      findings.problem(call.span(), Code.G305, call.span().text(), "part of an equation", help);
      return Optional.empty();
    }
    Expression load = call.arguments().get(1);
    if (!isLoad(load, equation.get())) {
      return Optional.empty();
    }
    Optional<Checked> body = checker.inside(equation.get().body());
    if (body.isEmpty() || wanted.isEmpty()) {
      return Optional.empty();
    }
    Type result = body.get().type();
    if (!result.equals(new Type.Measure(wanted.get()))) {
      findings.mismatch(
          Code.G204,
          call.arguments().get(0),
          result,
          call.arguments().get(2),
          new Type.Measure(wanted.get()));
      return Optional.empty();
    }
    Symbol.Datum sought = (Symbol.Datum) findings.symbol(load).orElseThrow();
    findings.means(call, new PartMeaning.Solution(body.get(), findings.slot(sought.demand())));
    return Optional.of(sought.type());
  }

  private boolean isLoad(Expression load, SolvableEquation equation) {
    String name =
        load instanceof Expression.Reference reference ? reference.name() : load.span().text();
    List<String> loads = equation.loads();
    boolean known =
        loads.contains(name)
            && findings.symbol(load).filter(Symbol.Datum.class::isInstance).isPresent();
    if (!known) {
      String help = Suggestion.help(name, loads, "it is made of " + String.join(", ", loads));
      findings.problem(load.span(), Code.G211, name, "the loads of " + equation.name(), help);
    } else if (!equation.isStraightIn(name)) {
      String help = "it is no straight line in " + name + "; solve it by hand";
      findings.problem(load.span(), Code.G305, name, "a load it can be solved for", help);
    }
    return known && equation.isStraightIn(name);
  }
}
