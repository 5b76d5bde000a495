/** Identity: figures are put together from marks, and a function of the room fits a screen. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const plots = fileURLToPath(new URL('../../plots', import.meta.url));
const trees = readdirSync(plots, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => {
    const text = readFileSync(join(plots, name), 'utf8');
    return { name, tree: ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true) };
  });

function* nodesOf(node: ts.Node): Generator<ts.Node> {
  yield node;
  for (const child of node.getChildren()) yield* nodesOf(child);
}

const linesOf = (tree: ts.SourceFile, node: ts.Node): number =>
  tree.getLineAndCharacterOfPosition(node.getEnd()).line -
  tree.getLineAndCharacterOfPosition(node.getStart()).line +
  1;

describe('the room of the plots', () => {
  it('has no function of more than 80 lines and no file of more than 300', () => {
    const long = trees.flatMap(({ name, tree }) => [
      ...(linesOf(tree, tree) > 300 ? [name] : []),
      ...[...nodesOf(tree)]
        .filter((node) => ts.isFunctionLike(node) && linesOf(tree, node) > 80)
        .map((node) => `${name}: ${node.getText().slice(0, 40)}`),
    ]);
    expect(long).toEqual([]);
  });

  it('draws lines, bands, leaders and crosses in the marks, where they are written once', () => {
    const marks = /^(?:line|rect|path|scatter|x-thin)$/;
    const own = (name: string): boolean => name.startsWith('marks/') || name.startsWith('theme/');
    const strays = trees
      .filter(({ name }) => !own(name))
      .flatMap(({ name, tree }) =>
        [...nodesOf(tree)]
          .filter(ts.isPropertyAssignment)
          .filter(({ name: key, initializer }) => {
            const property = key.getText();
            if (property === 'arrowhead') return true;
            if (property !== 'type' && property !== 'symbol') return false;
            return ts.isStringLiteral(initializer) && marks.test(initializer.text);
          })
          .map((node) => `${name}: ${node.getText()}`),
      );
    // The bars of the ports beside the wave diagram are drawn there only.
    expect(strays).toEqual(["figures/wave-diagram.ts: type: 'rect'"]);
  });
});
