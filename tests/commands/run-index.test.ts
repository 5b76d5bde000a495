/** The index of a folder of runs: newest first, whatever else lies about, and never in a run's way. */

import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { type RunCard, sweepCard } from '../../plots/pages/run-cards.ts';
import { openRunFolder } from '../../src/commands/frame/run-folder.ts';
import { HERE, listRun } from '../../src/commands/frame/run-index.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';

let place = '';
beforeEach(() => {
  place = join(mkdtempSync(join(tmpdir(), 'echocone-index-')), 'runs');
});

const messages: string[] = [];
const terminal = {
  colour: false,
  answer: () => {},
  message: (text: string) => void messages.push(text),
  warning: () => {},
  progress: () => {
    throw new Error('the index shows no progress');
  },
};

const card = (title: string): RunCard => ({
  title,
  kind: 'sweep',
  line: 'The wave lands.',
  outlines: [[{ name: 'header', role: 'header', start: 0, end: 0.3, diameters: [0.036, 0.04] }]],
  curves: [{ kind: 'torque', x: [9000, 9500, 10_000], y: [20, null, 21] }],
});

function ranIn(name: string, minute: number, { title = name, out = join(place, name) } = {}): void {
  const folder = openRunFolder({ out, name, overwrite: true });
  folder.write('sweep.html', '<!doctype html>');
  const now = new Date(2030, 0, 1, 12, minute);
  listRun(folder, 'sweep.html', card(title), { terminal, program: 'echocone 0.1.0', now });
}

const index = (): string => readFileSync(join(place, 'index.html'), 'utf8');
const titles = (): string[] =>
  [...index().matchAll(/<a href="\.\/([^"]*)">/g)].map((found) => found[1] as string);

describe('the index', () => {
  test('lists runs newest first with outline and curve', () => {
    ranIn('second', 2);
    ranIn('first', 1);
    ranIn('third', 3);
    expect(titles()).toEqual(['third/sweep.html', 'second/sweep.html', 'first/sweep.html']);
    expect(index().match(/<svg class="outline"/g)).toHaveLength(3);
    expect(index().match(/<svg class="thumb"/g)).toHaveLength(3);
    expect(index()).toContain('2030-01-01 12:03');
  });

  test('shows a run that is run again once, at its new time', () => {
    ranIn('a', 1);
    ranIn('b', 2);
    ranIn('a', 3);
    expect(titles()).toEqual(['a/sweep.html', 'b/sweep.html']);
  });

  test('lists both of two verbs that ran into one folder', () => {
    const map = openRunFolder({ out: join(place, 'a'), name: 'a', overwrite: true });
    map.write('map.html', '<!doctype html>');
    const now = new Date(2030, 0, 1, 12, 1);
    listRun(map, 'map.html', { ...card('a'), kind: 'map' }, { terminal, program: 'echocone 0.1.0', now });
    ranIn('a', 2);
    ranIn('a', 3);
    expect(titles()).toEqual(['a/sweep.html', 'a/map.html']);
  });

  test('lists a run without a page by its folder', () => {
    const patterns = openRunFolder({ out: join(place, 'a'), name: 'a', overwrite: true });
    listRun(patterns, HERE, { ...card('a'), kind: 'unroll' }, { terminal, program: 'echocone 0.1.0' });
    expect(titles()).toEqual(['a/']);
  });

  test('forgets a run whose folder is gone, and one whose page is gone', () => {
    ranIn('gone', 1);
    ranIn('pageless', 2);
    rmSync(join(place, 'gone'), { recursive: true });
    rmSync(join(place, 'pageless/sweep.html'));
    ranIn('here', 3);
    expect(titles()).toEqual(['here/sweep.html']);
  });

  test.each([
    ['no JSON', '{ "title": "x'],
    ['a list', '[]'],
    ['null', 'null'],
    ['no fields', '{}'],
    ['a page elsewhere', JSON.stringify({ ...card('x'), when: '2031', page: '../secret.html' })],
    ['a page that is a script', JSON.stringify({ ...card('x'), when: '2031', page: 'javascript:alert(1)' })],
    ['numbers for names', JSON.stringify({ ...card('x'), when: '2031', page: 'sweep.html', title: 5 })],
    [
      'outlines of nothing',
      JSON.stringify({ ...card('x'), when: '2031', page: 'sweep.html', outlines: [[{}]] }),
    ],
    ['curves of text', JSON.stringify({ ...card('x'), when: '2031', page: 'sweep.html', curves: ['up'] })],
    ['far too much', ' '.repeat(1_100_000)],
  ])('leaves out a folder whose card is %s', (_, text) => {
    mkdirSync(join(place, 'broken'), { recursive: true });
    writeFileSync(join(place, 'broken/run.json'), text);
    writeFileSync(join(place, 'broken/sweep.html'), '');
    ranIn('good', 1);
    expect(titles()).toEqual(['good/sweep.html']);
  });

  test('is not disturbed by files, empty folders and dead links', () => {
    mkdirSync(join(place, 'empty'), { recursive: true });
    writeFileSync(join(place, 'notes.txt'), 'mine');
    symlinkSync(join(place, 'nowhere'), join(place, 'dead'));
    ranIn('good', 1);
    expect(titles()).toEqual(['good/sweep.html']);
    expect(readdirSync(place).sort()).toEqual(['dead', 'empty', 'good', 'index.html', 'notes.txt']);
  });

  test('shows names as text and encodes folders in links', () => {
    const title = '<script>alert(1)</script> & "Söhne"';
    ranIn('a b & "c"', 1, { title });
    expect(index()).not.toContain('<script>alert');
    expect(index()).toContain('&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;Söhne&quot;');
    expect(titles()).toEqual(['a%20b%20%26%20%22c%22/sweep.html']);
  });

  test('has the answer of a sweep in a line', () => {
    const { line, curves, outlines } = sweepCard(syntheticSweep());
    expect(line).toMatch(/^The wave .*Best torque .*Nm at .*rpm\.$/);
    expect(curves.map(({ kind }) => kind)).toEqual(['torque', 'power']);
    expect(outlines).toHaveLength(1);
  });
});

describe('an index is never', () => {
  test('written over a page that is not ours', () => {
    mkdirSync(place);
    writeFileSync(join(place, 'index.html'), '<h1>My home page</h1>');
    ranIn('a', 1);
    expect(index()).toBe('<h1>My home page</h1>');
    expect(readdirSync(join(place, 'a'))).toContain('run.json');
  });

  test.each(['package.json', '.git'])('put beside %s', (name) => {
    mkdirSync(place);
    writeFileSync(join(place, name), '{}');
    ranIn('a', 1);
    expect(readdirSync(place).sort()).toEqual(['a', name].sort());
  });

  test('put into the temporary folder', () => {
    const out = dirname(place);
    const before = readdirSync(tmpdir()).includes('index.html');
    ranIn('a', 1, { out });
    expect(readdirSync(tmpdir()).includes('index.html')).toBe(before);
  });

  test('the end of a run', () => {
    messages.length = 0;
    mkdirSync(join(place, 'index.html'), { recursive: true });
    ranIn('a', 1);
    expect(messages.join()).toContain('The index of runs was not brought up to date');
    expect(readdirSync(place).filter((name) => name.endsWith('.part'))).toEqual([]);
  });
});
