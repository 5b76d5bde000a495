/** Habits of every file: names, length, exports, types. */

import { basename, relative } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { type Source, sourcesIn } from './source-graph.ts';

const sources = ['solver', 'src', 'plots'].flatMap(sourcesIn);
const tests = sourcesIn('tests');

describe('files', () => {
  const all = [...sources, ...tests];
  const pathsOf = (fitting: (source: Source) => boolean): readonly string[] =>
    all.filter(fitting).map(({ path }) => relative('.', path));

  test('are named in kebab-case', () => {
    expect(
      pathsOf(({ path }) => !/^[a-z0-9]+(-[a-z0-9]+)*(\.(test|config|d))?\.ts$/.test(basename(path))),
    ).toEqual([]);
  });

  test('are at most 300 lines long', () => {
    expect(pathsOf(({ text }) => text.split('\n').length > 301)).toEqual([]);
  });

  test('have no default export, but where a tool asks for one', () => {
    const hasDefault = ({ tree }: Source): boolean =>
      tree.statements.some(
        (node) =>
          ts.isExportAssignment(node) ||
          (ts.canHaveModifiers(node) &&
            ts.getModifiers(node)?.some(({ kind }) => kind === ts.SyntaxKind.DefaultKeyword) === true),
      );
    expect(pathsOf(hasDefault).filter((path) => !path.endsWith('.config.ts'))).toEqual([]);
  });

  test('have no enum and no any', () => {
    const has = (node: ts.Node): boolean =>
      ts.isEnumDeclaration(node) ||
      node.kind === ts.SyntaxKind.AnyKeyword ||
      (ts.forEachChild(node, has) ?? false);
    expect(pathsOf(({ tree }) => has(tree))).toEqual([]);
  });

  test('write constants in capitals', () => {
    const literal = (node: ts.Node | undefined): boolean =>
      node !== undefined &&
      (ts.isNumericLiteral(node) ||
        ts.isStringLiteral(node) ||
        (ts.isPrefixUnaryExpression(node) && literal(node.operand)) ||
        (ts.isBinaryExpression(node) && literal(node.left) && literal(node.right)));
    const small = ({ path, tree }: Source): readonly string[] =>
      tree.statements
        .filter(ts.isVariableStatement)
        .filter(({ declarationList }) => (declarationList.flags & ts.NodeFlags.Const) !== 0)
        .flatMap(({ declarationList }) => declarationList.declarations)
        .filter(({ name, initializer }) => literal(initializer) && /^[a-z]/.test(name.getText(tree)))
        .map(({ name }) => `${path}: ${name.getText(tree)}`);
    expect(sources.flatMap(small)).toEqual([]);
  });

  test('are not called utils, helpers or common', () => {
    expect(pathsOf(({ path }) => /(^|\/)(utils?|helpers?|common|misc)(\.ts|\/)/.test(path))).toEqual([]);
  });
});
