package org.gradus.session;

import java.util.Optional;

/**
 * A stop rule that held.
 *
 * @param rule its id
 * @param verdict what it recommends
 * @param because the rule with its numbers as they were
 * @param firmness whether the readings could have flipped it
 * @param behind the one that was kept before and is less urgent; it is back once this is overridden
 */
record Alarm(
    String rule,
    Verdict.Stop verdict,
    Because because,
    Firmness firmness,
    Optional<Alarm> behind) {}
