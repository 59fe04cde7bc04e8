/** Small changes of a source file, each of which the tests of its part have to notice. */
import {
  type BinaryExpression,
  type CallExpression,
  type Expression,
  type Node,
  type NumericLiteral,
  type SourceFile,
  SyntaxKind,
} from 'typescript/unstable/ast';
import {
  isArrayLiteralExpression,
  isArrowFunction,
  isBinaryExpression,
  isBlock,
  isCallExpression,
  isConditionalExpression,
  isExpression,
  isExpressionStatement,
  isForOfStatement,
  isIdentifier,
  isIfStatement,
  isNumericLiteral,
  isPrefixUnaryExpression,
  isPropertyAccessExpression,
  isPropertyAssignment,
  isReturnStatement,
  isStringLiteral,
  isTypeNode,
  isWhileStatement,
} from 'typescript/unstable/ast/is';
import type { Checker } from 'typescript/unstable/sync';

export interface Mutant {
  /** Its number, which the changed text asks for. */
  readonly id: number;
  readonly file: string;
  readonly line: number;
  /** What stands in that line. */
  readonly of: string;
  readonly before: string;
  readonly after: string;
}

/** A source that holds all of its mutants: which of them it is, `__mutant(id)` says when it is asked. */
export interface Mutated {
  readonly text: string;
  readonly mutants: readonly Mutant[];
}

const OPERATORS: Readonly<Partial<Record<SyntaxKind, string>>> = {
  [SyntaxKind.PlusToken]: '-',
  [SyntaxKind.MinusToken]: '+',
  [SyntaxKind.AsteriskToken]: '/',
  [SyntaxKind.SlashToken]: '*',
  [SyntaxKind.LessThanToken]: '<=',
  [SyntaxKind.LessThanEqualsToken]: '<',
  [SyntaxKind.GreaterThanToken]: '>=',
  [SyntaxKind.GreaterThanEqualsToken]: '>',
  [SyntaxKind.EqualsEqualsEqualsToken]: '!==',
  [SyntaxKind.ExclamationEqualsEqualsToken]: '===',
  [SyntaxKind.AmpersandAmpersandToken]: '||',
  [SyntaxKind.BarBarToken]: '&&',
  [SyntaxKind.CaretToken]: '|',
  [SyntaxKind.AmpersandToken]: '|',
};

const METHODS: ReadonlyMap<string, string> = new Map([
  ['some', 'every'],
  ['every', 'some'],
  ['findLast', 'find'],
  ['min', 'max'],
  ['max', 'min'],
  ['startsWith', 'endsWith'],
  ['endsWith', 'startsWith'],
]);

/** Calls that may be left out: what they are called on stands for them. */
const SKIPPED = new Set(['filter', 'sort', 'toSorted', 'reverse', 'toReversed', 'slice', 'trim']);

/** Functions that say the same of two things whichever comes first. */
const SYMMETRICAL = new Set([
  'times',
  'add',
  'heardTogether',
  'exclude',
  'joinSpans',
  'oddly',
  'isOf',
  'same',
  'samePlace',
  'servesDifferentStrings',
  'tell',
]);

/** Numbers them from `firstId` on. */
export function mutate(file: string, source: SourceFile, checker: Checker, firstId: number): Mutated {
  const mutants: Mutant[] = [];
  const { text } = source;
  const lines = text.split('\n');
  const lineAt = (offset: number) => text.slice(0, offset).split('\n').length;
  const textOf = (node: Node) => text.slice(node.getStart(source), node.end);

  const add = (node: Node, after: string): string => {
    const id = firstId + mutants.length;
    const line = lineAt(node.getStart(source));
    mutants.push({ id, file, line, of: lines[line - 1] ?? '', before: textOf(node), after });
    return `__mutant(${id})`;
  };

  /** The node's text, with the mutants of what it holds. */
  const inner = (node: Node): string => {
    let written = '';
    let at = node.getStart(source);
    node.forEachChild((child) => {
      const start = child.getStart(source);
      written += text.slice(at, start) + changed(child);
      at = child.end;
    });
    return written + text.slice(at, node.end);
  };

  const changed = (node: Node): string => {
    if (isTypeNode(node) || ONLY_TYPES.has(node.kind) || node.kind === SyntaxKind.ImportDeclaration)
      return textOf(node);
    if (isExpression(node)) {
      const others = inChain(node, textOf) ? [] : otherExpressions(node, textOf, checker);
      const choices = others.map((after) => `${add(node, after)} ? (${after}) : `);
      return choices.length > 0 ? `(${choices.join('')}(${inner(node)}))` : inner(node);
    }
    if (isLeftOut(node)) {
      const asked = add(node, '');
      return `if (${asked}) {} else { ${inner(node)} }`;
    }
    return inner(node);
  };

  const body = source.statements.map(changed);
  return { text: `const { __mutant } = globalThis;\n${body.join('\n')}`, mutants };
}

const ONLY_TYPES = new Set([
  SyntaxKind.InterfaceDeclaration,
  SyntaxKind.TypeAliasDeclaration,
  SyntaxKind.TypeParameter,
  SyntaxKind.ExportDeclaration,
]);

/** Statements whose work can be left undone. */
const isLeftOut = (node: Node): boolean =>
  isExpressionStatement(node) ||
  isForOfStatement(node) ||
  node.kind === SyntaxKind.ContinueStatement ||
  node.kind === SyntaxKind.BreakStatement ||
  (isIfStatement(node) && !node.elseStatement && isBlock(node.parent) && !onlyLeavesOut(node.thenStatement));

/** An `if` around one statement that can be left out by itself says nothing more. */
const onlyLeavesOut = (node: Node): boolean =>
  isBlock(node) ? node.statements.length === 1 && node.statements.every(isLeftOut) : isLeftOut(node);

/** A link of `a?.b.c`: in parentheses it would no longer end where `a` is missing. */
const inChain = (node: Expression, textOf: (node: Node) => string): boolean =>
  (isPropertyAccessExpression(node.parent) || isCallExpression(node.parent)) &&
  node.parent.expression === node &&
  textOf(node).includes('?.');

function otherExpressions(node: Expression, textOf: (node: Node) => string, checker: Checker): readonly string[] {
  const typeOf = (of: Node) => {
    const type = checker.getTypeAtLocation(of);
    return type ? checker.typeToString(type) : '';
  };
  return [
    ...(isCondition(node) && !isComparison(node) ? [`!(${textOf(node)})`] : []),
    ...(isBinaryExpression(node) ? otherOperators(node, textOf, typeOf) : []),
    ...(isCallExpression(node) ? otherCalls(node, textOf, typeOf) : []),
    ...(isPrefixUnaryExpression(node) && isSign(node.operator) && !isCondition(node) ? [textOf(node.operand)] : []),
    ...(isNumericLiteral(node) && standsAlone(node) ? [String(Number(node.text) + 1)] : []),
    ...(isResult(node) ? otherResults(node, textOf, typeOf) : []),
  ];
}

/** A whole number that no operator takes: that one has mutants of its own. */
const standsAlone = ({ text, parent }: NumericLiteral): boolean =>
  /^\d+$/.test(text) &&
  !isBinaryExpression(parent) &&
  !isPrefixUnaryExpression(parent) &&
  !isPropertyAssignment(parent);

const isSign = (operator: SyntaxKind): boolean =>
  operator === SyntaxKind.ExclamationToken || operator === SyntaxKind.MinusToken;

const isCondition = (node: Node): boolean => {
  const { parent } = node;
  if (isIfStatement(parent) || isWhileStatement(parent)) return parent.expression === node;
  return isConditionalExpression(parent) && parent.condition === node;
};

/** Its operator is turned round, which says the same. */
const isComparison = (node: Expression): boolean =>
  isBinaryExpression(node) &&
  (node.operatorToken.kind === SyntaxKind.EqualsEqualsEqualsToken ||
    node.operatorToken.kind === SyntaxKind.ExclamationEqualsEqualsToken);

function otherOperators(
  { left, operatorToken, right }: BinaryExpression,
  textOf: (node: Node) => string,
  typeOf: (node: Node) => string,
): readonly string[] {
  if (operatorToken.kind === SyntaxKind.QuestionQuestionToken) return [textOf(right)];
  if (operatorToken.kind === SyntaxKind.PlusToken && [left, right].some((side) => isText(side, typeOf))) return [];
  const other = OPERATORS[operatorToken.kind];
  return other === undefined ? [] : [`(${textOf(left)}) ${other} (${textOf(right)})`];
}

const isText = (node: Node, typeOf: (node: Node) => string): boolean =>
  isStringLiteral(node) || /^string|^"/.test(typeOf(node));

function otherCalls(
  { expression, arguments: given }: CallExpression,
  textOf: (node: Node) => string,
  typeOf: (node: Node) => string,
): readonly string[] {
  const others: string[] = [];
  const args = `(${given.map(textOf).join(', ')})`;
  if (isPropertyAccessExpression(expression)) {
    const { name, expression: on } = expression;
    const link = textOf(expression).slice(textOf(on).length, -textOf(name).length);
    const method = METHODS.get(name.text);
    if (method !== undefined) others.push(`${textOf(on)}${link}${method}${args}`);
    if (SKIPPED.has(name.text)) others.push(textOf(on));
  }
  const [first, second, ...rest] = given;
  // Arguments of different kinds that change places fail at once: that shows nothing.
  const mayChange = isIdentifier(expression) && !SYMMETRICAL.has(expression.text);
  if (first && second && mayChange && typeOf(first) === typeOf(second))
    others.push(`${textOf(expression)}(${[second, first, ...rest].map(textOf).join(', ')})`);
  return others;
}

/** What a function gives back. */
const isResult = (node: Expression): boolean =>
  (isReturnStatement(node.parent) && node.parent.expression === node) ||
  (isArrowFunction(node.parent) && node.parent.body === node);

function otherResults(
  node: Expression,
  textOf: (node: Node) => string,
  typeOf: (node: Node) => string,
): readonly string[] {
  const text = textOf(node);
  if (text === 'undefined' || (isArrayLiteralExpression(node) && node.elements.length === 0)) return [];
  const type = typeOf(node);
  if (type === 'true' || type === 'false') return [type === 'true' ? 'false' : 'true'];
  // Where an operator decides, it has mutants of its own.
  if (type === 'boolean') return isBinaryExpression(node) || isPrefixUnaryExpression(node) ? [] : [`!(${text})`];
  if (type === 'void') return [];
  return [/\[\]$|^readonly \[/.test(type) ? '[]' : 'undefined'];
}
