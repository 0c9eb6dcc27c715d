// The rule language of Gradus. The meaning of each construct stands in the package documentation of org.gradus.rule.
grammar Gradus;

@lexer::members {
  private boolean endsHere() {
    int c = _input.LA(1);
    return !(Character.isLetterOrDigit(c) || c == '_');
  }
}

// One entry point per kind of YAML scalar. Each scalar is parsed alone; the first syntax error ends it.
ruleText      : sentence EOF ;
expression    : expr EOF ;
quantityText  : quantity EOF ;
rangeText     : quantity TO quantity EOF ;
selectionText : selection EOF ;
choiceText    : name (WHEN expr)? EOF ;

sentence : action (WHEN expr)? ;

action
    : STOP                                   # stop
    | FINISH                                 # finish
    | HOLD amount AT MOST WHOLE (TIME | TIMES)      # hold
    | CHANGE name BY amount AT MOST WHOLE (TIME | TIMES)   # change
    | ADVANCE (TO name)?                     # advance
    | OFFER offered                          # offer
    | CAUTION                                # caution
    | DEFER                                  # defer
    | START AT name                          # startAt
    | END                                    # end
    ;

offered
    : FINISH                                 # offerFinish
    | ADVANCE (TO name)?                     # offerAdvance
    | HOLD amount AT MOST WHOLE (TIME | TIMES)      # offerHold
    ;

// 'if' stands only where a whole expression stands (top, argument, inside parentheses): no dangling else,
// and '1 + if ...' must be written '1 + (if ...)'.
expr : IF expr THEN expr ELSE expr           # choice
     | either                                # plain
     ;

either  : both (OR both)* ;
both    : denial (AND denial)* ;
denial  : NOT denial                         # not
        | test                               # asserted
        ;

// Not associative on purpose: '1 < x < 3' and 'a = b = c' do not parse. The bounds of 'between' are sums, so its
// 'and' can never be taken by the conjunction. Factored to the left: one token decides which tail follows.
test    : sum tail? ;
tail    : op=(LT | LE | GT | GE | EQ | NE) sum   # comparison
        | BETWEEN sum AND sum                    # between
        | IS NOT? name                           # is
        ;

sum     : sum op=(PLUS | MINUS) product      # additive
        | product                            # ofProducts
        ;
product : product op=(STAR | SLASH) signed   # multiplicative
        | signed                             # ofSigned
        ;
signed  : MINUS signed                       # negated
        | share                              # unsigned
        ;
// 'share of whole' binds tighter than * and /: 2 * 85 % of x is 2 * (85 % of x).
share   : power (OF signed)? ;
// Right associative, and -2 ^ 2 is -(2 ^ 2). The exponent must not reach 'share' or 'a ^ b of c' has two readings.
power    : postfix (CARET exponent)? ;
exponent : MINUS exponent
         | power
         ;
postfix : postfix op=(IN | AS) unit          # conversion
        | primary                            # whole
        ;
primary : number unit?                       # literal
        | CLOCK                              # clock
        | name LPAREN (expr (COMMA expr)*)? RPAREN   # call
        | name (DOT name)?                   # reference
        | LPAREN expr RPAREN                 # group
        ;

amount   : quantity | name ;
quantity : MINUS? number unit?               # quantityLiteral
         | MINUS? CLOCK                      # quantityClock
         ;
// The term is a WORD, not a name: 'stage stages' must have one reading.
selection : (FIRST | LAST) WHOLE? WORD? (STAGE | STAGES)      # fromEnd
          | WORD? STAGES (COMMA AT LEAST WHOLE)?              # allStages
          | STAGE name                                        # oneStage
          | (WORD | FINISH)                                   # moment
          ;

number : WHOLE | DECIMAL ;
// A unit is only ever read after a number or after 'in' / 'as', so plain unit words need no token of their own.
unit   : WORD | RATIO | PERCENT ;
// Words that mean something only in one place stay usable as names.
name   : WORD
       | STOP | FINISH | HOLD | CHANGE | BY | ADVANCE | OFFER | CAUTION | DEFER | START | END
       | AT | MOST | TIME | TIMES | TO | FIRST | LAST | STAGE | STAGES | LEAST
       ;

STOP: 'stop'; FINISH: 'finish'; HOLD: 'hold'; CHANGE: 'change'; BY: 'by'; ADVANCE: 'advance'; OFFER: 'offer'; CAUTION: 'caution';
DEFER: 'defer'; START: 'start'; END: 'end';
AT: 'at'; MOST: 'most'; TIME: 'time'; TIMES: 'times'; TO: 'to'; FIRST: 'first'; LAST: 'last'; STAGE: 'stage'; STAGES: 'stages'; LEAST: 'least';
WHEN: 'when'; IF: 'if'; THEN: 'then'; ELSE: 'else'; OR: 'or'; AND: 'and'; NOT: 'not'; BETWEEN: 'between'; IS: 'is';
OF: 'of'; IN: 'in'; AS: 'as';

LT: '<'; LE: '<=' | '≤'; GT: '>'; GE: '>=' | '≥'; EQ: '='; NE: '!=' | '≠';
PLUS: '+'; MINUS: '-' | '\u2212'; STAR: '*' | '×'; SLASH: '/' | '÷'; CARET: '^'; PERCENT: '%';
LPAREN: '('; RPAREN: ')'; COMMA: ','; DOT: '.';

// Only these combinations are units with a slash; written without spaces; not the head of a longer word.
RATIO : ( '/min' | 'min/km' | 'min/mile' | 'L/min_BTPS' | 'W/kg' | 'mmol/L' | 'mg/dL' | 'g/L'
        | 'mL/kg/min' | 'mL/min' | 'L/min' | 'km/h' | 'm/min' | 'm/s' | 'kgm/min' | 'steps/min' | 'cycles/min' | 'kcal/min' | 'kJ/min' )
        { endsHere() }? ;
CLOCK   : [0-9]+ ':' [0-5] [0-9] (':' [0-5] [0-9])? ;
WHOLE   : [0-9]+ ;
DECIMAL : [0-9]+ '.' [0-9]+ ;
WORD    : [A-Za-z] [A-Za-z0-9_]* ;
SPACE   : [ \t\r\n\u00A0\u2009\u202F]+ -> skip ;   // pasted no-break and thin spaces count as spaces
OTHER   : . ;                                // the lexer itself never fails: any other character is one token
