package org.gradus.testkit;

import org.gradus.diagnostic.GradusException;

/** Nothing is left to chance. */
final class Twin implements Watch {

  private final LiveSession other;

  Twin(TestScript test) {
    this.other = test.open();
  }

  @Override
  public void after(Moment moment) {
    Object first =
        moment
            .answer()
            .<Object>map(a -> a)
            .orElseGet(() -> refusal(moment.refusal().orElseThrow()));
    Watch.same("the answer of the other", first, answer(moment.step()));
  }

  private Object answer(Step step) {
    try {
      return other.apply(step);
    } catch (GradusException refused) {
      return refusal(refused);
    }
  }

  private static String refusal(GradusException refused) {
    return "refused, " + refused.getMessage();
  }
}
