/**
 * The grammar's few rules. The layout before it has ended each line and balanced the braces, so that nothing is left for
 * this parser to fail on; recovery stays on all the same, because a text must never be able to stop the reader.
 */
import { type CstNode, CstParser, type IToken, type ParserMethod } from 'chevrotain';
import { allTokens, CloseBrace, ItemToken, LineEnd, OpenBrace } from './tokens.ts';

export class PickupParser extends CstParser {
  /** The library's check of its own rules costs start-up time and needs Node 21; a test runs it. */
  constructor({ skipValidations = true } = {}) {
    super(allTokens, { recoveryEnabled: true, skipValidations, nodeLocationTracking: 'none' });
    this.performSelfAnalysis();
  }

  readonly chunk: ParserMethod<[], CstNode> = this.RULE('chunk', () => {
    this.MANY(() => {
      this.OR([{ ALT: () => this.SUBRULE(this.statement) }, { ALT: () => this.CONSUME(LineEnd) }]);
    });
  });

  readonly statement: ParserMethod<[], CstNode> = this.RULE('statement', () => {
    this.OR([
      {
        ALT: () => {
          this.AT_LEAST_ONE(() => this.CONSUME(ItemToken));
          this.OPTION(() => this.SUBRULE(this.body));
        },
      },
      { ALT: () => this.SUBRULE2(this.body) },
    ]);
  });

  readonly body: ParserMethod<[], CstNode> = this.RULE('body', () => {
    this.CONSUME(OpenBrace);
    this.MANY(() => {
      this.OR([{ ALT: () => this.SUBRULE(this.statement) }, { ALT: () => this.CONSUME(LineEnd) }]);
    });
    this.CONSUME(CloseBrace);
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
  const tree = parser.chunk();
  return { statements: statementsOf(tree), rejected: parser.errors.map((error) => error.token) };
}

function statementsOf(node: CstNode): readonly Statement[] {
  return nodes(node, 'statement').map((statement): Statement => {
    const body = nodes(statement, 'body')[0];
    const open = body && leaves(body, OpenBrace.name)[0];
    return {
      items: leaves(statement, ItemToken.name),
      body: body && open && { open, close: leaves(body, CloseBrace.name)[0], statements: statementsOf(body) },
    };
  });
}

function nodes(node: CstNode, name: string): readonly CstNode[] {
  return (node.children[name] ?? []).filter((child): child is CstNode => 'children' in child);
}

function leaves(node: CstNode, name: string): readonly IToken[] {
  return (node.children[name] ?? []).filter((child): child is IToken => 'image' in child);
}
