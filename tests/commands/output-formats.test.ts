/** Tables, CSV, JSON, progress and flag values as text. */

import { describe, expect, test, vi } from 'vitest';
import { csvText } from '../../src/commands/frame/csv.ts';
import {
  anglesFlag,
  lengthFlag,
  lengthWithin,
  speedFlag,
  speedsFlag,
} from '../../src/commands/frame/flag-values.ts';
import { jsonText } from '../../src/commands/frame/json.ts';
import { plainText, shortened, textWidth } from '../../src/commands/frame/plain-text.ts';
import { durationText, progressOf } from '../../src/commands/frame/progress.ts';
import { type Column, tableText } from '../../src/commands/frame/table.ts';
import { terminalOf } from '../../src/commands/frame/terminal.ts';
import { shortCsv } from '../../src/commands/words/short-csv.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { syntheticSweep } from '../plots/synthetic-sweep.ts';

const hostile = '<script>alert(1)</script> & "Söhne"\u001b[31m\u0007\u009b\r\nnext\u202egnp';

describe('user text', () => {
  test('loses control characters and escape sequences, nothing else', () => {
    expect(plainText(hostile)).toBe('<script>alert(1)</script> & "Söhne" nextgnp');
  });

  test('is cut by columns of the terminal, not by bytes', () => {
    expect(textWidth('Söhne')).toBe(5);
    expect(textWidth('排気')).toBe(4);
    expect(shortened('Söhne & Co', 6)).toBe('Söhne…');
    expect(shortened('排気管', 4)).toBe('排…');
  });
});

interface Row {
  readonly name: string;
  readonly lead: number;
}

const columns: readonly Column<Row>[] = [
  { header: 'section', align: 'left', text: (row) => row.name },
  { header: 'lead', unit: 'deg', text: (row) => row.lead.toFixed(1) },
  { header: 'again', unit: 'deg', optional: true, text: (row) => row.lead.toFixed(3) },
];
const rows: readonly Row[] = [
  { name: 'belly', lead: -3.25 },
  { name: 'header', lead: 12 },
];

describe('table', () => {
  test('aligns, names units, marks a row', () => {
    expect(tableText(columns, rows, { marked: (row) => row.name === 'header' })).toBe(
      [
        '  section   lead   again',
        '           [deg]   [deg]',
        '  belly     -3.3  -3.250',
        '> header    12.0  12.000',
        '',
      ].join('\n'),
    );
  });

  test('keeps to its width with any names: optional columns go, then text is shortened', () => {
    const long = [{ name: hostile.repeat(4), lead: 1 }];
    const lines = tableText(columns, long, { width: 80 }).split('\n');
    expect(Math.max(...lines.map(textWidth))).toBe(80);
    expect(lines.join('')).not.toContain('again');
    expect(lines.join('')).not.toMatch(/\p{Cc}/u);
  });
});

describe('CSV', () => {
  test('numbers read back to the same number', () => {
    const numbers = [0.1 + 0.2, 1e-300, -0.1, 2 ** 70, Number.MIN_VALUE, 5e-324, 1 / 3];
    const text = csvText(
      ['n'],
      numbers.map((n) => ({ n })),
    );
    expect(text.trim().split('\n').slice(1).map(Number)).toEqual(numbers);
  });

  test('text is quoted, on one line and never a formula; a negative number stays a number', () => {
    const text = csvText(
      ['name', 'lead', 'settled', 'none'],
      [
        { name: '=HYPERLINK("x")', lead: -2.5, settled: true, none: Number.NaN },
        { name: '@SUM(1)', lead: 1, settled: false, none: null },
        { name: 'a, "b"\nc', lead: 1, settled: false },
      ],
    );
    expect(text).toBe(
      'name,lead,settled,none\n"\'=HYPERLINK(""x"")",-2.5,true,\n\'@SUM(1),1,false,\n"a, ""b"" c",1,false,\n',
    );
  });
});

test('JSON reads back, typed arrays as arrays', () => {
  const document = {
    schemaVersion: 1,
    a: new Float64Array([1, 0.1]),
    b: { c: Number.NaN, d: 'x' },
    e: undefined,
  };
  expect(JSON.parse(jsonText(document))).toEqual({ schemaVersion: 1, a: [1, 0.1], b: { c: null, d: 'x' } });
});

describe('progress', () => {
  test('estimates the time left from the rate of this run', () => {
    let now = 0;
    const shown: string[] = [];
    const sink = { live: true, columns: 80, show: (line: string) => void shown.push(line), clear: () => {} };
    const subject = { label: 'overnight', things: 'drafts', total: 40, before: 20 };
    const progress = progressOf(sink, subject, () => now);
    now = 60_000;
    progress.advance(30, 'best 11.2 bar');
    expect(shown).toEqual(['overnight: 30 of 40 drafts (75 %), about 60 s left; best 11.2 bar']);
    now = 60_050;
    progress.advance(31);
    expect(shown).toHaveLength(1);
    progress.advance(40);
    expect(shown.at(-1)).toBe('overnight: 40 of 40 drafts (100 %)');
  });

  test('spans of time are said plainly', () => {
    expect([400, 42_000, 150_000, 7_500_000].map(durationText)).toEqual([
      'a second',
      '42 s',
      '3 min',
      '2 h 5 min',
    ]);
  });

  test('a live line gives way to messages and comes back', () => {
    let written = '';
    const stderr = { isTTY: true, columns: 40, write: (text: string) => (written += text) };
    const terminal = terminalOf({ stdout: stderr, stderr, environment: {}, quiet: false });
    const progress = terminal.progress({ label: 'sweep', things: 'speeds', total: 25 });
    progress.advance(5);
    terminal.message('hello');
    progress.finish();
    const shown = written.replaceAll('\r\u001b[K', '^').replaceAll(/ \(20 %\)[^^]*/g, '');
    expect(shown).toBe('^sweep: 5 of 25 speeds^hello\n^sweep: 5 of 25 speeds^');
  });

  test('where the line cannot be rewritten, only what takes hours says how far it is', () => {
    vi.useFakeTimers({ toFake: ['performance'] });
    const saidBy = (plainProgress: boolean): string => {
      let written = '';
      const stderr = { write: (text: string) => (written += text) };
      const settings = { stdout: stderr, stderr, environment: {}, quiet: false, plainProgress };
      const progress = terminalOf(settings).progress({ label: 'map', things: 'points', total: 25 });
      vi.advanceTimersByTime(60_000);
      progress.advance(5);
      progress.advance(6);
      progress.finish();
      return written;
    };
    expect(saidBy(false)).toBe('');
    expect(saidBy(true)).toBe('map: 5 of 25 points (20 %), about 4 min left\n');
    vi.useRealTimers();
  });

  test('colour only on a terminal that wants it', () => {
    const output = { isTTY: true, write: () => {} };
    const colour = (environment: Record<string, string>, isTTY = true): boolean =>
      terminalOf({ stdout: { ...output, isTTY }, stderr: output, environment, quiet: false }).colour;
    expect(colour({})).toBe(true);
    expect(colour({ NO_COLOR: '1' })).toBe(false);
    expect(colour({ NO_COLOR: '' })).toBe(true);
    expect(colour({ TERM: 'dumb' })).toBe(false);
    expect(colour({}, false)).toBe(false);
  });
});

describe('flag values', () => {
  test('speeds as a range, a list, one', () => {
    expect(speedsFlag('6000:7000:250')).toEqual([6000, 6250, 6500, 6750, 7000]);
    expect(speedsFlag('6000 rpm:6600rpm:250 rpm')).toEqual([6000, 6250, 6500]);
    expect(speedsFlag('9000,8000,9000')).toEqual([8000, 9000]);
    expect(speedFlag('11000 rpm')).toBe(11000);
    expect(anglesFlag('184:185:0.1')).toHaveLength(11);
  });

  test.each([
    '',
    '6000:12000',
    '6000:12000:0',
    '12000:6000:250',
    '6000:7000:-1',
    '1:1e9:1',
    '8000 deg',
    'fast',
    '1:2:3:4',
  ])('%j is refused as speeds', (text) => {
    expect(() => speedsFlag(text)).toThrow(expect.objectContaining({ exitCode: 2 }));
  });

  test('lengths are exactly what the number in metres would be', () => {
    expect(lengthFlag('5mm')).toBe(0.005);
    expect(lengthFlag('0.5 cm')).toBe(0.005);
    expect(lengthFlag('0.1 m')).toBe(0.1);
    expect(lengthFlag('1 in')).toBe(0.0254);
    expect(lengthFlag('300um')).toBe(0.0003);
    for (const text of ['5', '5 furlong', '', 'mm']) expect(() => lengthFlag(text)).toThrow();
    const seam = lengthWithin('0mm', '50mm');
    expect([seam('0mm'), seam('5cm')]).toEqual([0, 0.05]);
    for (const text of ['-1mm', '51mm', '400mm']) expect(() => seam(text)).toThrow('from 0mm to 50mm');
  });
});

test('the short sweep: a unit in every heading that has one, rounded, no minus before a nought', () => {
  const { rows } = syntheticSweep({ step: 1000 });
  const [first] = rows;
  const row = {
    ...(first as SweepRow),
    torque_nm: 21.9499,
    packed_mass_ratio: -1e-5,
    header_gas_temperature_k: 973.2,
  };
  const [heads = '', line = ''] = shortCsv([row]).split('\n');
  const cells = new Map(
    heads.split(/,(?! )/).map((head, k) => [head.replaceAll('"', ''), line.split(',')[k]]),
  );
  expect(cells.get('torque [Nm]')).toBe('21.9');
  expect(cells.get('packed [%]')).toBe('0');
  expect(cells.get('gas, header [degC]')).toBe('700');
  for (const [head, cell] of cells) {
    expect(head, head).toMatch(/ \[\w+|^(wave|settled)$|%\]$/);
    expect(cell, head).not.toMatch(/^-0$|\.\d{3,}/);
  }
});
