package org.gradus.protocol;

import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.rule.Condition;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.RuleText.QuantityRange;

/**
 * Something the tester answers or chooses before the test.
 *
 * @param name the name rules use
 * @param type what an answer is
 * @param prompt the words to ask it with
 * @param range the range of answers, if there is one
 * @param unless where this holds the question is not asked and the answer is no
 * @param source where the question comes from
 */
public record Question(
    String name,
    Type type,
    String prompt,
    Optional<QuantityRange> range,
    Optional<Condition> unless,
    Citation source) {}
