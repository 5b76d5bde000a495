/** The source files of the project as a graph of imports, read with the TypeScript compiler, and the circles in it. */

import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

export const root = fileURLToPath(new URL('..', import.meta.url));

export interface Import {
  /** Path of a file of the project from the root, or the name of a package or of a Node module. */
  readonly target: string;
  readonly typesOnly: boolean;
  readonly lazy: boolean;
}

export interface Source {
  readonly path: string;
  readonly text: string;
  readonly tree: ts.SourceFile;
  readonly imports: readonly Import[];
}

/** The TypeScript files of a folder of the project, with what they import. */
export function sourcesIn(folder: string): readonly Source[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !name.includes('node_modules'))
    .map((name) => {
      const path = join(folder, name);
      const text = readFileSync(join(root, path), 'utf8');
      const tree = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
      return { path, text, tree, imports: importsOf(tree, path) };
    });
}

function importsOf(tree: ts.SourceFile, path: string): readonly Import[] {
  const found: Import[] = [];
  const add = (specifier: ts.Node | undefined, typesOnly: boolean, lazy: boolean): void => {
    if (specifier === undefined || !ts.isStringLiteralLike(specifier)) return;
    const name = specifier.text;
    const target = name.startsWith('.') ? normalize(join(dirname(path), name)) : name;
    found.push({ target, typesOnly, lazy });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) {
      const clause = node.importClause;
      const named = clause?.namedBindings;
      const each = named !== undefined && ts.isNamedImports(named) ? named.elements : [];
      const onlyTypes = each.length > 0 && each.every((element) => element.isTypeOnly);
      add(node.moduleSpecifier, clause?.phaseModifier === ts.SyntaxKind.TypeKeyword || onlyTypes, false);
    } else if (ts.isExportDeclaration(node)) add(node.moduleSpecifier, node.isTypeOnly, false);
    else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      add(node.arguments[0], false, true);
    } else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) {
      add(node.argument.literal, true, false);
    }
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

/**
 * Circles of imports, pairs of who and whom, on any level of the tree: between the folders in a folder, each with all that is in
 * it, and the files that lie beside them. So a folder may be read by one file beside it and read another. The rooms of src stand
 * beside the other rooms.
 */
export function folderCircles(arrows: readonly (readonly [string, string])[]): readonly string[] {
  const levels = new Map<string, Map<string, Set<string>>>();
  for (const [from, to] of arrows) {
    const a = namesOf(from);
    const b = namesOf(to);
    const depth = a.findIndex((part, k) => part !== b[k]);
    if (depth < 0) continue;
    const folder = a.slice(0, depth).join('/');
    const level = levels.get(folder) ?? new Map<string, Set<string>>();
    levels.set(folder, level);
    const one = a[depth] as string;
    level.set(one, (level.get(one) ?? new Set()).add(b[depth] as string));
  }
  return [...levels].flatMap(([folder, level]) =>
    circlesIn(new Map([...level].map(([name, targets]) => [name, [...targets]]))).map(
      (circle) => `${folder === '' ? 'rooms' : folder.replace('src.', 'src/')}: ${circle}`,
    ),
  );
}

function namesOf(path: string): readonly string[] {
  return path.replace(/^src\//, 'src.').split('/');
}

/** Circles of a graph, each once, by a search in depth. */
export function circlesIn(graph: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const circles: string[] = [];
  const finished = new Set<string>();
  const trail: string[] = [];
  const visit = (name: string): void => {
    if (finished.has(name)) return;
    const at = trail.indexOf(name);
    if (at >= 0) {
      circles.push([...trail.slice(at), name].join(' > '));
      return;
    }
    trail.push(name);
    for (const next of graph.get(name) ?? []) if (graph.has(next)) visit(next);
    trail.pop();
    finished.add(name);
  };
  for (const name of graph.keys()) visit(name);
  return circles;
}
