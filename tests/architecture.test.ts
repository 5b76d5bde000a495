/**
 * Who may know whom: the imports of every source file, read with the TypeScript compiler and held against the rules
 * of the house. Data walks one way through the rooms; the solver and the figures run in a browser; no circles.
 */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { circlesIn, folderCircles, type Import, root, sourcesIn } from './source-graph.ts';

interface Rule {
  /** Files that the rule is for. */
  readonly room: RegExp;
  /** What they may import: files of the project, packages, Node's own modules. */
  readonly may: readonly RegExp[];
}

/** The first rule whose room fits a file is the one for it. */
const rules: readonly Rule[] = [
  // The solver in layers: gas, march < duct < schemes side by side, ends, volumes < network.
  // Below them the functions that all share.
  { room: /^solver\/arithmetic\//, may: [/^solver\/arithmetic\//, /^#two-lane-kernel$/] },
  { room: /^solver\/march\//, may: [/^solver\/march\//] },
  { room: /^solver\/gas\//, may: [/^solver\/(gas|march|arithmetic)\//] },
  { room: /^solver\/duct\//, may: [/^solver\/(duct|gas|march|arithmetic)\//] },
  {
    room: /^solver\/scheme\/conservative\//,
    may: [/^solver\/(scheme\/conservative|duct|gas|march|arithmetic)\//],
  },
  // A second form of the conservative scheme.
  {
    room: /^solver\/scheme\/two-lane\//,
    may: [/^solver\/(scheme\/(two-lane|conservative)|duct|gas|march|arithmetic)\//],
  },
  // Another family on the same cells.
  {
    room: /^solver\/scheme\/finite-volume\//,
    may: [/^solver\/(scheme\/(finite-volume|conservative)|duct|gas|march|arithmetic)\//],
  },
  { room: /^solver\/scheme\/textbook\//, may: [/^solver\/(scheme\/textbook|duct|gas|march|arithmetic)\//] },
  { room: /^solver\/scheme\/[^/]+\.ts$/, may: [/^solver\/(scheme|duct|gas|march|arithmetic)\//] },
  { room: /^solver\/ends\//, may: [/^solver\/(ends|duct|gas|march|arithmetic)\//] },
  // A law of scavenging knows volumes and streams as numbers only.
  { room: /^solver\/volumes\/scavenging\//, may: [/^solver\/volumes\/scavenging\//] },
  { room: /^solver\/volumes\//, may: [/^solver\/(volumes|gas|march|arithmetic)\//] },
  { room: /^solver\/network\//, may: [/^solver\/(network|volumes|ends|duct|gas|march|arithmetic)\//] },
  { room: /^solver\/index\.ts$/, may: [/^solver\//] },
  { room: /^src\/model\//, may: [/^src\/model\//] },
  // Exact solutions are witnesses against the solver, so they share nothing with it.
  { room: /^src\/verify\/exact\//, may: [/^src\/verify\/exact\//] },
  { room: /^src\/verify\//, may: [/^src\/verify\//, /^solver\//, /^node:/] },
  { room: /^src\/pipe\//, may: [/^src\/(pipe|model)\//, /^solver\//] },
  { room: /^src\/timing\//, may: [/^src\/(timing|pipe|model)\//, /^solver\//] },
  { room: /^src\/case\//, may: [/^src\/(case|timing|pipe|model)\//, /^node:/, /^(yaml|wrap-ansi)$/] },
  {
    room: /^src\/engine\//,
    may: [/^src\/(engine|timing|pipe|model|findings)\//, /^solver\//],
  },
  // A project of its own: what is to be said, of rows and traces alone, wherever it is to be said.
  { room: /^src\/findings\//, may: [/^src\/findings\//] },
  { room: /^src\/workshop\//, may: [/^src\/(workshop|pipe|model)\//, /^dxf-writer$/] },
  // What a live page does, on the page and in its workers: it runs in a browser.
  {
    room: /^src\/board\//,
    may: [
      /^src\/(board|engine|findings|case|timing|pipe|model)\//,
      /^src\/study\/work\/(run-sweep|run-settings)\.ts$/,
      /^solver\//,
      /^yaml$/,
    ],
  },
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
  // Files of a run are written as safely as its journal, its pages' scripts lie where threads find theirs; the flags of a new engine
  // are what may be known of one.
  {
    room: /^src\/commands\/frame\//,
    may: [
      /^src\/commands\/frame\//,
      /^src\/study\/work\/(durable-file|program-file|running-process)\.ts$/,
      /^src\/model\/known-engine\.ts$/,
      /^node:/,
      /^(commander|wrap-ansi)$/,
    ],
  },
  // What commands say of a study's result, apart from how they run.
  {
    room: /^src\/commands\/words\//,
    may: [/^src\/(commands\/(words|frame)|study|engine|findings|model|workshop)\//, /^plots\//],
  },
  {
    room: /^src\/commands\/[^/]+\.ts$/,
    may: [
      /^src\/(commands\/(frame|words)|study|engine|findings|case|timing|pipe|model|workshop|verify|board)\//,
      /^(solver|plots)\//,
      /^node:/,
    ],
  },
  { room: /^src\/main\.ts$/, may: [/^src\/commands\//] },
  { room: /^plots\/theme\//, may: [/^plots\/theme\//] },
  { room: /^plots\/marks\//, may: [/^plots\/(theme|marks)\//] },
  { room: /^plots\/figures\//, may: [/^plots\/(theme|marks|figures)\//, /^src\/findings\//, /^wrap-ansi$/] },
  // The live page's script: what runs in a browser, and no more of the program.
  {
    room: /^plots\/client\/board\//,
    may: [
      /^plots\/(client\/board|theme|marks|figures|pages)\//,
      /^src\/(board|findings|case\/text|timing|pipe|model|engine\/run)\//,
      /^src\/study\/work\/run-sweep\.ts$/,
    ],
  },
  { room: /^plots\//, may: [/^plots\//, /^src\/findings\//, /^(plotly\.js-dist-min|ndarray)$/] },
];

function isAllowed(path: string, { target }: Import): boolean {
  const rule = rules.find(({ room }) => room.test(path));
  if (rule === undefined) return false;
  return rule.may.some((one) => one.test(target));
}

const sources = ['solver', 'src', 'plots'].flatMap(sourcesIn);
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
    expect(byPath.get('src/workshop/centreline.ts')?.imports).toEqual([
      { target: 'src/model/pipe.ts', typesOnly: true, lazy: false },
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
    ['solver/scheme/textbook/refresh.ts', 'solver/scheme/conservative/state.ts'],
    ['solver/duct/duct.ts', 'solver/scheme/new-duct.ts'],
    ['solver/ends/orifice.ts', 'solver/volumes/volume.ts'],
    ['solver/volumes/scavenging/law.ts', 'solver/volumes/volume.ts'],
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

  test('go round in no circle between folders', () => {
    const arrows = sources.flatMap(({ path, imports }) =>
      imports.map(({ target }) => [path, target] as const),
    );
    expect(folderCircles(arrows)).toEqual([]);
    // The search itself finds one, of folders whose files make none.
    expect(
      folderCircles([
        ['r/a/x.ts', 'r/b/x.ts'],
        ['r/b/y.ts', 'r/a/y.ts'],
        ['r/top.ts', 'r/a/x.ts'],
        ['r/a/y.ts', 'r/bottom.ts'],
      ]),
    ).toEqual(['r: a > b > a']);
  });

  test('reach every shipped file from an entry point', () => {
    const reached = new Set<string>();
    const reach = (path: string): void => {
      if (reached.has(path)) return;
      reached.add(path);
      for (const { target } of byPath.get(path)?.imports ?? []) if (byPath.has(target)) reach(target);
    };
    for (const { path } of sources) if (isEntry(path)) reach(path);
    expect(reached.size).toBeGreaterThan(200);
    expect(sources.filter(({ path }) => !reached.has(path)).map(({ path }) => path)).toEqual([]);
  });

  test('use every library that ships', () => {
    const { dependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
      dependencies: Readonly<Record<string, string>>;
    };
    // A page's script of a library is found by its name, not imported.
    const uses = (name: string): boolean =>
      sources.some(
        ({ text, imports }) =>
          imports.some(({ target }) => target === name) || new RegExp(`resolve\\('${name}`).test(text),
      );
    expect(Object.keys(dependencies).filter((name) => !uses(name))).toEqual([]);
  });

  test('leave areas of circles and the walk along the sections to the room of the pipe', () => {
    // The workshop develops sheets, the solver has its own geometry, witnesses share nothing.
    const others = sources.filter(({ path }) => !/^(solver|src\/(pipe|workshop|verify))\//.test(path));
    const area =
      /(Math\.PI \/ 4|0\.25 \* Math\.PI|4 \/ Math\.PI|\) \/ Math\.PI\)|\(4 \* \w+(\.\w+)*\) \/ Math\.PI)/;
    expect(area.test('Math.sqrt((4 * engine.passage.exitArea) / Math.PI)')).toBe(true);
    const walk = /position \+= (\w+\.)?length|start \+= (\w+\.)?length/;
    expect(others.filter(({ text }) => area.test(text) || walk.test(text)).map(({ path }) => path)).toEqual(
      [],
    );
  });

  test('on the way of a march take powers and angles from where they have the same bits on every machine', () => {
    const own =
      /\bMath\.(pow|exp|expm1|log|log10|log1p|sin|cos|tan|asin|acos|atan|atan2|sinh|cosh|tanh|cbrt)\(|\*\* /;
    expect(own.test('const a = Math.sin(phi) * b ** 2;')).toBe(true);
    // Rules of thumb and the handbook stand beside the march.
    const marched = sources.filter(({ path }) =>
      /^(solver\/(?!arithmetic\/|scheme\/two-lane\/assembly\/)|src\/engine\/(parts|run)\/|src\/timing\/(crank|window|circle-segment|stream-area|wiebe|volume|schedule|events|burning|ignition|residual)\.ts)/.test(
        path,
      ),
    );
    expect(marched.length).toBeGreaterThan(60);
    const code = (text: string): string => text.replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '');
    expect(marched.filter(({ text }) => own.test(code(text))).map(({ path }) => path)).toEqual([]);
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

/** Files that something outside starts with: the command line, a thread, a page, the build, another program; declarations. */
function isEntry(path: string): boolean {
  return (
    ['src/main.ts', 'src/study/work/worker.ts', 'solver/index.ts'].includes(path) ||
    // Compiled by the build to the two-lane kernel, and what that is declared as.
    path.startsWith('solver/scheme/two-lane/assembly/') ||
    path.endsWith('.d.ts') ||
    /^plots\/client\/(board\/)?[^/]+-page\.ts$/.test(path) ||
    // What the bundle puts in the place of Node's files.
    path === 'plots/client/board/no-files.ts' ||
    /^src\/case\/schemas\/write-[^/]+\.ts$/.test(path)
  );
}
