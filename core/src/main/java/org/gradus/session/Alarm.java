package org.gradus.session;

/**
 * A stop rule that held.
 *
 * @param rule its id
 * @param verdict what it recommends
 * @param because the rule with its numbers as they were
 * @param firmness whether the readings could have flipped it
 */
record Alarm(String rule, Verdict.Stop verdict, Because because, Firmness firmness) {}
