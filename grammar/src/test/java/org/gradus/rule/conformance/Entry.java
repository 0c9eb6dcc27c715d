package org.gradus.rule.conformance;

import org.antlr.v4.runtime.ParserRuleContext;
import org.gradus.rule.syntax.GradusParser;

/** The rule of the grammar by which the text of a case is read. */
final class Entry {

  private Entry() {}

  static ParserRuleContext read(Case given, GradusParser parser) {
    return switch (given.ask()) {
      case VALUE, CONDITION -> parser.expression();
      case RULE -> parser.ruleText();
      case QUANTITY -> parser.quantityText();
      case RANGE -> parser.rangeText();
      case SELECTION -> parser.selectionText();
      case CHOICE_LINE -> parser.choiceText();
    };
  }

  /** The same as a number, for a parser that walks the grammar itself. */
  static int index(Case given) {
    return switch (given.ask()) {
      case VALUE, CONDITION -> GradusParser.RULE_expression;
      case RULE -> GradusParser.RULE_ruleText;
      case QUANTITY -> GradusParser.RULE_quantityText;
      case RANGE -> GradusParser.RULE_rangeText;
      case SELECTION -> GradusParser.RULE_selectionText;
      case CHOICE_LINE -> GradusParser.RULE_choiceText;
    };
  }
}
