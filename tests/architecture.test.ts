/**
 * Who may know whom: the imports of every source file, read with the TypeScript compiler and held against the rules
 * of the house. Data walks one way through the rooms; the solver and the figures run in a browser; no circles.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, normalize, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

interface Import {
  /** Path of a file of the project from the root, or the name of a package or of a Node module. */
  readonly target: string;
  readonly typesOnly: boolean;
  readonly lazy: boolean;
}

interface Source {
  readonly path: string;
  readonly text: string;
  readonly tree: ts.SourceFile;
  readonly imports: readonly Import[];
}

function sourcesIn(folder: string): readonly Source[] {
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

interface Rule {
  /** Files that the rule is for. */
  readonly room: RegExp;
  /** What they may import: files of the project, packages, Node's own modules. */
  readonly may: readonly RegExp[];
}

/** The first rule whose room fits a file is the one for it. */
const rules: readonly Rule[] = [
  { room: /^solver\//, may: [/^solver\//, /^#two-lane-kernel$/] },
  { room: /^src\/model\//, may: [/^src\/model\//] },
  // Exact solutions are witnesses against the solver, so they share nothing with it.
  { room: /^src\/verify\/exact\//, may: [/^src\/verify\/exact\//] },
  { room: /^src\/verify\//, may: [/^src\/verify\//, /^solver\//, /^node:/] },
  { room: /^src\/pipe\//, may: [/^src\/(pipe|model)\//, /^solver\//] },
  { room: /^src\/timing\//, may: [/^src\/(timing|pipe|model)\//, /^solver\//] },
  { room: /^src\/case\//, may: [/^src\/(case|timing|pipe|model)\//, /^node:/, /^yaml$/] },
  {
    room: /^src\/engine\//,
    may: [/^src\/(engine|timing|pipe|model|findings)\//, /^solver\//, /^ndarray$/],
  },
  // A project of its own: what is to be said, of rows and traces alone, wherever it is to be said.
  { room: /^src\/findings\//, may: [/^src\/findings\//] },
  { room: /^src\/workshop\//, may: [/^src\/(workshop|pipe|model)\//] },
  {
    room: /^src\/study\//,
    may: [
      /^src\/(study|engine|findings|case|timing|pipe|model|verify)\//,
      /^solver\//,
      /^node:/,
      /^(piscina|ndarray|mathjs|safe-stable-stringify|bullmq)$/,
    ],
  },
  // The index of a folder of runs is a page that every verb brings up to date.
  {
    room: /^src\/commands\/frame\/run-index\.ts$/,
    may: [/^src\/study\/work\/durable-file\.ts$/, /^src\/commands\/frame\//, /^node:/, /^plots\/pages\//],
  },
  // Files of a run are written as safely as its journal.
  {
    room: /^src\/commands\/frame\//,
    may: [
      /^src\/commands\/frame\//,
      /^src\/study\/work\/(durable-file|running-process)\.ts$/,
      /^node:/,
      /^commander$/,
    ],
  },
  // What commands say of a study's result, apart from how they run.
  {
    room: /^src\/commands\/words\//,
    may: [/^src\/(commands\/(words|frame)|study|engine|findings|model)\//, /^plots\//],
  },
  {
    room: /^src\/commands\/[^/]+\.ts$/,
    may: [
      /^src\/(commands\/(frame|words)|study|engine|findings|case|timing|pipe|model|workshop|verify)\//,
      /^(solver|plots)\//,
      /^node:/,
    ],
  },
  { room: /^src\/main\.ts$/, may: [/^src\/commands\//] },
  { room: /^plots\/theme\//, may: [/^plots\/theme\//] },
  { room: /^plots\/marks\//, may: [/^plots\/(theme|marks)\//] },
  { room: /^plots\/figures\//, may: [/^plots\/(theme|marks|figures)\//, /^src\/findings\//] },
  { room: /^plots\//, may: [/^plots\//, /^src\/findings\//, /^(plotly\.js-dist-min|ndarray)$/] },
];

function isAllowed(path: string, { target }: Import): boolean {
  const rule = rules.find(({ room }) => room.test(path));
  if (rule === undefined) return false;
  return rule.may.some((one) => one.test(target));
}

const sources = ['solver', 'src', 'plots'].flatMap(sourcesIn);
const tests = sourcesIn('tests');
const byPath = new Map(sources.map((source) => [source.path, source]));

describe('imports', () => {
  test('are read', () => {
    const main = byPath.get('src/main.ts');
    expect(main?.imports).toContainEqual({
      target: 'src/commands/frame/program.ts',
      typesOnly: false,
      lazy: false,
    });
    expect(main?.imports.some(({ lazy }) => lazy)).toBe(true);
    expect(byPath.get('src/workshop/development.ts')?.imports).toEqual([
      { target: 'src/model/section.ts', typesOnly: true, lazy: false },
    ]);
  });

  test('every file belongs to a room', () => {
    expect(
      sources.filter(({ path }) => !rules.some(({ room }) => room.test(path))).map(({ path }) => path),
    ).toEqual([]);
  });

  test('keep to who may know whom', () => {
    const broken = sources.flatMap(({ path, imports }) =>
      imports.filter((one) => !isAllowed(path, one)).map(({ target }) => `${path} imports ${target}`),
    );
    expect(broken).toEqual([]);
  });

  test.each([
    ['solver/duct/step.ts', 'src/model/case.ts'],
    ['src/model/case.ts', 'src/case/load.ts'],
    ['solver/duct/step.ts', 'node:fs'],
    ['src/timing/crank.ts', 'node:fs'],
    ['src/verify/exact/riemann.ts', 'solver/index.ts'],
    ['src/study/sweep.ts', 'plots/pages/sweep.ts'],
    ['src/commands/sweep.ts', 'src/commands/map.ts'],
    ['plots/figures/torque.ts', 'src/study/work/score.ts'],
    ['src/findings/row.ts', 'src/engine/build.ts'],
    ['plots/figures/torque.ts', 'plots/pages/sweep.ts'],
    ['plots/pages/sweep.ts', 'node:fs'],
  ])('would not let %s import %s', (path, target) => {
    expect(isAllowed(path, { target, typesOnly: false, lazy: false })).toBe(false);
  });

  test('go round in no circle', () => {
    expect(
      circlesIn(new Map(sources.map(({ path, imports }) => [path, imports.map(({ target }) => target)]))),
    ).toEqual([]);
    // The search itself finds one.
    expect(
      circlesIn(
        new Map([
          ['a', ['b']],
          ['b', ['c', 'a']],
          ['c', []],
        ]),
      ),
    ).toEqual(['a > b > a']);
  });

  test('of the command line load nothing heavy before a verb runs', () => {
    const loaded = new Set<string>();
    const load = (path: string): void => {
      if (loaded.has(path)) return;
      loaded.add(path);
      for (const { target, typesOnly, lazy } of byPath.get(path)?.imports ?? [])
        if (!typesOnly && !lazy) load(target);
    };
    load('src/main.ts');
    const packages = [...loaded].filter((name) => !byPath.has(name) && !name.startsWith('node:'));
    expect(packages).toEqual(['commander']);
  });
});

/** Circles of a graph, each once, by a search in depth. */
function circlesIn(graph: ReadonlyMap<string, readonly string[]>): readonly string[] {
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

describe('files', () => {
  const all = [...sources, ...tests];
  const pathsOf = (fitting: (source: Source) => boolean): readonly string[] =>
    all.filter(fitting).map(({ path }) => relative('.', path));

  test('are named in kebab-case', () => {
    expect(
      pathsOf(({ path }) => !/^[a-z0-9]+(-[a-z0-9]+)*(\.(test|config|d))?\.ts$/.test(basename(path))),
    ).toEqual([]);
  });

  test('are at most 320 lines long', () => {
    expect(pathsOf(({ text }) => text.split('\n').length > 321)).toEqual([]);
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

  test('are not called utils, helpers or common', () => {
    expect(pathsOf(({ path }) => /(^|\/)(utils?|helpers?|common|misc)(\.ts|\/)/.test(path))).toEqual([]);
  });
});
