package org.gradus.protocol;

/**
 * Something the tester is reminded to say or to look for.
 *
 * @param say the words, neutral and open
 * @param timing when in each stage
 */
public record Cue(String say, Timing timing) {}
