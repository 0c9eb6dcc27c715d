package org.gradus.rule.syntax;

import java.util.Optional;
import org.antlr.v4.runtime.Token;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.GradusParser.AmountContext;
import org.gradus.rule.syntax.GradusParser.NameContext;
import org.jspecify.annotations.Nullable;

/** Turns the parser's tree of an action into ours. */
final class ActionBuilder extends GradusBaseVisitor<Action> {

  private final TreeBuilder builder;

  ActionBuilder(TreeBuilder builder) {
    this.builder = builder;
  }

  @Override
  public Action visitStop(GradusParser.StopContext tree) {
    return new Action.Stop();
  }

  @Override
  public Action visitFinish(GradusParser.FinishContext tree) {
    return new Action.Finish();
  }

  @Override
  public Action visitHold(GradusParser.HoldContext tree) {
    return hold(tree.amount(), tree.WHOLE().getSymbol());
  }

  @Override
  public Action visitChange(GradusParser.ChangeContext tree) {
    return new Action.Change(
        builder.name(tree.name()), amount(tree.amount()), builder.whole(tree.WHOLE().getSymbol()));
  }

  @Override
  public Action visitAdvance(GradusParser.AdvanceContext tree) {
    return advance(tree.name());
  }

  @Override
  public Action visitOffer(GradusParser.OfferContext tree) {
    return new Action.Offer(visit(tree.offered()));
  }

  @Override
  public Action visitOfferFinish(GradusParser.OfferFinishContext tree) {
    return new Action.Finish();
  }

  @Override
  public Action visitOfferAdvance(GradusParser.OfferAdvanceContext tree) {
    return advance(tree.name());
  }

  @Override
  public Action visitOfferHold(GradusParser.OfferHoldContext tree) {
    return hold(tree.amount(), tree.WHOLE().getSymbol());
  }

  @Override
  public Action visitCaution(GradusParser.CautionContext tree) {
    return new Action.Caution();
  }

  @Override
  public Action visitDefer(GradusParser.DeferContext tree) {
    return new Action.Defer();
  }

  @Override
  public Action visitStartAt(GradusParser.StartAtContext tree) {
    return new Action.StartAt(builder.name(tree.name()));
  }

  @Override
  public Action visitEnd(GradusParser.EndContext tree) {
    return new Action.End();
  }

  /** Reached only by an action of the grammar that has no method here. */
  @Override
  protected Action defaultResult() {
    throw new IllegalStateException("an action of the grammar that is not built");
  }

  private Action advance(@Nullable NameContext to) {
    return new Action.Advance(Optional.ofNullable(to).map(builder::name));
  }

  private Action hold(AmountContext longer, Token times) {
    return new Action.Hold(amount(longer), builder.whole(times));
  }

  private Expression amount(AmountContext amount) {
    Span span = builder.span(amount);
    return amount.quantity() != null
        ? new Expression.Literal(span, builder.quantity(amount.quantity()))
        : new Expression.Reference(span, amount.getText());
  }
}
