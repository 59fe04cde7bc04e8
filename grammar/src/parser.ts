/**
 * The grammar's few rules. The layout before it has ended each line and balanced the braces, so that nothing is left for
 * this parser to fail on; recovery stays on all the same, because a text must never be able to stop the reader.
 */
import { EmbeddedActionsParser, type IToken, type ParserMethod } from 'chevrotain';
import { allTokens, CloseBrace, ItemToken, LineEnd, OpenBrace } from './tokens.ts';

export class PickupParser extends EmbeddedActionsParser {
  /** The library's check of its own rules costs start-up time and needs Node 21; a test runs it. */
  constructor({ skipValidations = true } = {}) {
    super(allTokens, { recoveryEnabled: true, skipValidations });
    this.performSelfAnalysis();
  }

  readonly chunk: ParserMethod<[], readonly Statement[]> = this.RULE('chunk', () => {
    const statements: Statement[] = [];
    this.MANY(() => {
      this.OR([{ ALT: () => statements.push(this.SUBRULE(this.statement)) }, { ALT: () => this.CONSUME(LineEnd) }]);
    });
    return statements;
  });

  readonly statement: ParserMethod<[], Statement> = this.RULE('statement', () => {
    const items: IToken[] = [];
    const statement: { items: IToken[]; body: Statement['body'] } = { items, body: undefined };
    this.OR([
      {
        ALT: () => {
          this.AT_LEAST_ONE(() => items.push(this.CONSUME(ItemToken)));
          statement.body = this.OPTION(() => this.SUBRULE(this.body));
        },
      },
      {
        ALT: () => {
          statement.body = this.SUBRULE2(this.body);
        },
      },
    ]);
    return statement;
  });

  readonly body: ParserMethod<[], Statement['body']> = this.RULE('body', () => {
    const statements: Statement[] = [];
    const open = this.CONSUME(OpenBrace);
    this.MANY(() => {
      this.OR([{ ALT: () => statements.push(this.SUBRULE(this.statement)) }, { ALT: () => this.CONSUME(LineEnd) }]);
    });
    const close = this.CONSUME(CloseBrace);
    return { open, close, statements };
  });
}

const parser = new PickupParser();

/** A line's items, and the braces and statements of its block where it opens one. */
export interface Statement {
  readonly items: readonly IToken[];
  readonly body:
    | { readonly open: IToken; readonly close: IToken | undefined; readonly statements: readonly Statement[] }
    | undefined;
}

export interface Parsed {
  readonly statements: readonly Statement[];
  /** Tokens that no rule could take. */
  readonly rejected: readonly IToken[];
}

export function parse(tokens: readonly IToken[]): Parsed {
  parser.input = [...tokens];
  const statements = parser.chunk();
  return { statements, rejected: parser.errors.map((error) => error.token) };
}
