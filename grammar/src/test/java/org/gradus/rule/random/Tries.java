package org.gradus.rule.random;

import net.jqwik.api.lifecycle.AroundPropertyHook;
import net.jqwik.api.lifecycle.PropagationMode;
import net.jqwik.api.lifecycle.PropertyExecutionResult;
import net.jqwik.api.lifecycle.PropertyExecutor;
import net.jqwik.api.lifecycle.PropertyLifecycleContext;

/**
 * Prints the seed of every property, so that any run can be repeated, and holds its tries to {@code
 * -Dgradus.tries=N} where tests run again and again, as they do for each mutant.
 */
public final class Tries implements AroundPropertyHook {

  @Override
  public PropagationMode propagateTo() {
    return PropagationMode.ALL_DESCENDANTS;
  }

  @Override
  public PropertyExecutionResult aroundProperty(
      PropertyLifecycleContext context, PropertyExecutor property) {
    Integer most = Integer.getInteger("gradus.tries");
    if (most != null) {
      context.attributes().setTries(Math.min(most, context.attributes().tries().orElse(1000)));
    }
    PropertyExecutionResult result = property.execute();
    if (most == null && result.countTries() > 1) {
      System.out.printf(
          "%s: %d tries, seed %s%n",
          context.extendedLabel(), result.countTries(), result.seed().orElse("none"));
    }
    return result;
  }
}
