package org.gradus.session;

import java.time.Duration;

/**
 * A stop rule that held.
 *
 * @param rule its id
 * @param verdict what it recommends
 * @param because the rule with its numbers as they were
 * @param firmness whether the readings could have flipped it
 * @param at when it held
 */
record Alarm(String rule, Verdict.Stop verdict, Because because, Firmness firmness, Duration at) {}
