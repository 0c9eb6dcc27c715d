package org.gradus.internal.json;

import java.util.function.Function;

/**
 * What a reader of JSON takes.
 *
 * @param levels so many objects and lists in each other at most
 * @param characters so long a text at most
 * @param takesNull whether {@code null} is a value
 * @param number what is made of the text of a number, which has 40 characters at most
 */
public record JsonLimits(
    int levels, int characters, boolean takesNull, Function<String, Object> number) {}
