/** Ring: identity. Files of measurements and their tables, as spreadsheets write them; what is wrong is told with file and line. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { loadMeasured } from '../../src/case/measured/measured-load.ts';
import { correctionFactor } from '../../src/case/measured/power-correction.ts';
import { CaseProblems, FileProblem } from '../../src/case/text/problem.ts';
import { CASES } from './files.ts';

const folder = mkdtempSync(join(tmpdir(), 'echocone-measured-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function written(name: string, text: string | Buffer): string {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
}

const CONTRACT =
  'kind: measured\nname: dyno, 12 March\n' +
  'dyno: { file: dyno.csv, speed: rpm [rpm], torque: Nm [N m], error: 2 %, correctedTo: none }   # or power\n';

/** Speeds and torques of a table read as the contract's example names it. */
function curve(table: string | Buffer, keys = CONTRACT) {
  written('dyno.csv', table);
  return loadMeasured(written('measured.yaml', keys));
}

const torques = (table: string | Buffer, keys = CONTRACT) =>
  curve(table, keys).dyno!.points.map(({ rpm, torque }) => [rpm, Number(torque.toFixed(3))]);

/** What is said of a file that is refused. */
function refusal(read: () => unknown): string {
  try {
    read();
  } catch (error) {
    if (error instanceof CaseProblems) return error.message.replaceAll(/\n\s+/g, ' ');
    throw error;
  }
  throw new Error('it was taken');
}

describe('a dynamometer curve', () => {
  const expected = [
    [9000, 18.2],
    [10_500, 21.5],
  ];

  test.each([
    ['commas and points', 'rpm,Nm\n9000,18.2\n10500,21.5\n'],
    ['semicolons and decimal commas', 'rpm;Nm\n9000;18,2\n10500;21,5\n'],
    ['tabs', 'rpm\tNm\n9000\t18.2\n10500\t21.5\n'],
    [
      'a mark of its bytes, CRLF and quotation marks',
      '\uFEFF"rpm";"Nm"\r\n"9000";"18,2"\r\n"10500";"21,5"\r\n',
    ],
    ['thousands grouped', 'rpm;Nm\n9.000,0;18,2\n10.500,0;21,5\n'],
    ['units in the heading', 'rpm [1/min];Nm (Nm)\n9000;18,2\n10500;21,5\n'],
    ['units below it', 'rpm;Nm\n1/min;N·m\n9000;18,2\n10500;21,5\n'],
    ['other columns and lines above', 'Run 3;;\nDate;12 March;\n#;rpm;Nm\n1;9000;18,2\n2;10500;21,5\n'],
    ['blank lines, and speeds that fall', 'rpm;Nm\n\n10500;21,5\n;\n9000;18,2\n\n'],
    ['UTF-16', Buffer.from('\uFEFFrpm\tNm\n9000\t18,2\n10500\t21,5\n', 'utf16le')],
    ['an older code page', Buffer.from('rpm;Nm;\xb0C\n9000;18,2;20\n10500;21,5;20\n', 'latin1')],
  ])('is read with %s', (_, table) => {
    expect(torques(table)).toEqual(expected);
  });

  test('has its error of the value, and the lines that values stand in', () => {
    const { points } = curve('rpm;Nm\n10500;21,5\n9000;18,2\n').dyno!;
    expect(points.map(({ error }) => error)).toEqual([0.02 * 18.2, 0.02 * 21.5]);
    expect(points.map(({ line }) => line)).toEqual([3, 2]);
  });

  test('of power is turned to torque, and corrected values back into the air of the day', () => {
    const keys =
      'kind: measured\nambient: { pressure: 960 mbar, temperature: 30 degC, humidity: 40 % }\n' +
      'dyno: { file: dyno.csv, speed: rpm [rpm], power: P [PS], error: 0.3 PS, correctedTo: ISO 1585 }\n';
    const measured = curve('rpm,P\n10000,30\n', keys);
    const { torque, error } = measured.dyno!.points[0]!;
    const factor = correctionFactor('ISO 1585', { pressure: 96e3, temperature: 303.15, humidity: 0.4 });
    expect(factor).toBeGreaterThan(1.03);
    expect(torque).toBeCloseTo((30 * 735.49875) / ((10_000 * Math.PI) / 30) / factor, 9);
    expect(error / torque).toBeCloseTo(0.01, 9);
  });

  test('that was corrected is refused where the air is not known', () => {
    expect(
      refusal(() =>
        curve('rpm,Nm\n9000,18\n', CONTRACT.replace('correctedTo: none', 'correctedTo: SAE J1349')),
      ),
    ).toMatch(
      /measured\.yaml:3:.*dyno\.correctedTo: values can be corrected back only where the air of the day is known/,
    );
  });

  test.each([
    [
      'an unknown column',
      'rpm;Torque\n9000;18\n',
      /dyno\.csv:1:1: there is no column "Nm".*the heading has rpm, Torque/,
    ],
    [
      'a unit that does not fit',
      'rpm;Nm [kW]\n9000;18\n',
      /dyno\.csv:1:.*"kW" is of a power, and "Nm" is to be a torque/,
    ],
    [
      'two curves',
      'rpm;Nm\n9000;18\n9500;19\n9000;26\n',
      /dyno\.csv:4:1: 9000 rpm stands here with 26\.0 N m and in line 2 .*two curves.*files of their own/,
    ],
    ['no speeds', 'rpm;Nm\n9,5;18\n', /dyno\.csv:2:1: 9\.5 rpm is no speed/],
    ['no torque', 'rpm;Nm\n9000;18000\n', /dyno\.csv:2:1: a torque of 18000 N m is none/],
    ['nothing below', 'rpm;Nm\n', /dyno\.csv:1:1: no values stand below the heading/],
    ['nothing at all', '\n\n', /dyno\.csv:1:1: the table is empty/],
    [
      'mostly words',
      'rpm;Nm\na;b\nc;d\n9000;18\ne;f\n',
      /dyno\.csv:2:1: no number .* 3 of 4 lines: lines 2, 3, 5/,
    ],
  ])('is refused with %s', (_, table, said) => {
    expect(refusal(() => curve(table))).toMatch(said);
  });

  test('names broken lines that it leaves out', () => {
    const lines = Array.from({ length: 30 }, (_, k) => `${8000 + 100 * k};${k === 4 ? '#N/A' : '18,5'}`);
    const { warnings, dyno } = curve(`rpm;Nm\n${lines.join('\n')}\n`);
    expect(dyno!.points).toHaveLength(29);
    expect(warnings).toEqual([expect.stringMatching(/dyno\.csv:6: a broken line was left out \(line 6\)/)]);
  });

  test('may leave its factor free, over a range', () => {
    const keys = (factor: string) => CONTRACT.replace('correctedTo: none', `factor: ${factor}`);
    const table = 'rpm,Nm\n9000,18\n';
    expect(curve(table, keys('free')).dyno!.factor).toEqual({ kind: 'free', range: null });
    expect(curve(table, keys('{ from: 0.9, to: 1 }')).dyno!.factor).toEqual({
      kind: 'free',
      range: [0.9, 1],
    });
    expect(curve(table, keys('95 %')).dyno!.factor).toEqual({ kind: 'known', value: 0.95 });
    expect(refusal(() => curve(table, keys('{ from: 1, to: 0.9 }')))).toMatch(
      /dyno\.factor\.to: is not above the lower end/,
    );
  });

  test('needs a unit that fits what it is, and one of torque and power', () => {
    const table = 'rpm,Nm\n9000,18\n';
    expect(refusal(() => curve(table, CONTRACT.replace('[N m]', '[kW]')))).toMatch(
      /"kW" is of a power where a torque is due.*under the key power/,
    );
    expect(refusal(() => curve(table, CONTRACT.replace(', torque: Nm [N m]', '')))).toMatch(
      /needs one of torque, power/,
    );
    expect(refusal(() => curve(table, CONTRACT.replace(' [N m]', '')))).toMatch(
      /nothing says what unit "Nm" is in/,
    );
  });

  test('whose table is not there is a file that cannot be read', () => {
    const read = () => loadMeasured(written('other.yaml', CONTRACT.replace('dyno.csv', 'nowhere.csv')));
    expect(read).toThrow(FileProblem);
    expect(read).toThrow(/other\.yaml:3:\d+: dyno\.file: .*nowhere\.csv: no such file/);
  });
});

describe('a pressure trace', () => {
  const keys = (more = '') =>
    'kind: measured\nambient: { pressure: 1 bar, temperature: 20 degC }\n' +
    `trace: [ { file: p.csv, at: 60 mm, speed: 10500 rpm, angle: deg [deg], pressure: bar [bar], error: 0.05 bar${more} } ]\n`;
  const trace = (rows: readonly (readonly [number, number])[], more = '') => {
    written('p.csv', `deg,bar\n${rows.map((row) => row.join(',')).join('\n')}\n`);
    return loadMeasured(written('trace.yaml', keys(more))).traces[0]!;
  };
  const wave = (deg: number): number => Number((1.2 + 0.3 * Math.sin((deg * Math.PI) / 180)).toFixed(5));
  const turn = (from: number, to: number, step: number) =>
    Array.from(
      { length: Math.floor((to - from) / step) + 1 },
      (_, k) => [from + k * step, wave(from + k * step)] as const,
    );

  test.each([
    ['a turn', turn(0, 359, 1)],
    ['a turn from -180 on', turn(-180, 179, 1)],
    ['three turns that run on', turn(20, 1100, 1)],
    ['angles that begin again', turn(0, 719, 1).map(([deg, value]) => [deg % 360, value] as const)],
    ['a value every five degrees', turn(0, 355, 5)],
  ])('is read from %s as a mean turn of even degrees', (_, rows) => {
    const { pressure, stepDeg, error } = trace(rows);
    expect(pressure).toHaveLength(360 / stepDeg);
    for (const [k, value] of pressure.entries())
      expect(Math.abs(value - 1e5 * wave(k * stepDeg))).toBeLessThan(150);
    expect(error).toBe(5000);
  });

  test('of half a turn, or whose angle runs backwards, is refused at its line', () => {
    expect(refusal(() => trace(turn(0, 180, 1)))).toMatch(
      /p\.csv:182:1: the trace ends here after 180 deg: a whole turn is needed/,
    );
    expect(refusal(() => trace(turn(0, 359, 1).toReversed()))).toMatch(
      /p\.csv:3:1: the angle runs backwards, from 359 to 358 deg.*turn the table over/,
    );
    const gap = turn(0, 359, 1).filter(([deg]) => deg < 100 || deg > 150);
    expect(refusal(() => trace(gap))).toMatch(/p\.csv:102:1: 52 deg are missing before this line/);
  });

  test('that reads the pressure above the air has that added; else it is seen', () => {
    const above = turn(0, 359, 1).map(([deg, value]) => [deg, value - 1] as const);
    expect(trace(above, ', reads: gauge').pressure[45]! / 1e5).toBeCloseTo(wave(90), 3);
    expect(refusal(() => trace(above))).toMatch(/the mean of the trace is 0\.20 bar.*reads: gauge/);
  });

  test('says where it was taken and may leave its offset free', () => {
    const at = (place: string) =>
      loadMeasured(written('trace.yaml', keys(', offset: free').replace('60 mm', place))).traces[0]!;
    trace(turn(0, 359, 1));
    expect(at('port').at).toBe('port');
    expect(at('-20 mm').at).toBeCloseTo(-0.02, 12);
    expect(at('port').offset).toEqual({ kind: 'free', range: null });
    expect(refusal(() => at('header'))).toMatch(
      /trace\.0\.at: there is no place of that name.*port, crankcase, cylinder/,
    );
  });
});

test('temperatures, and what else the contract names, are read in SI', () => {
  const measured = loadMeasured(
    written(
      'all.yaml',
      'kind: measured\nexhaustTemperature: [ { at: 150 mm, speed: 10500 rpm, value: 590 degC, error: 15 K } ]\n' +
        'wall: [ { at: 50 mm, value: 430 degC } ]\nambient: { pressure: 1003 mbar, temperature: 21 degC }\n',
    ),
  );
  expect(measured.name).toBe('all');
  expect(measured.gasTemperatures).toEqual([
    expect.objectContaining({ at: 0.15, rpm: 10_500, value: 863.15, error: 15 }),
  ]);
  expect(measured.walls).toEqual([
    expect.objectContaining({ at: 0.05, rpm: null, value: 703.15, error: 20 }),
  ]);
  expect(measured.ambient).toEqual({ pressure: 100_300, temperature: 294.15, humidity: 0.5 });
  expect(refusal(() => loadMeasured(written('none.yaml', 'kind: measured\n')))).toMatch(
    /nothing is measured/,
  );
  expect(refusal(() => loadMeasured(written('odd.yaml', 'kind: measured\nwalls: []\n')))).toMatch(
    /unknown key "walls".*did you mean "wall"/,
  );
});

test('the club’s measurements are read as they lie', () => {
  const { dyno, traces, warnings } = loadMeasured(join(CASES, 'saltmarsh-125/measured/dyno.yaml'));
  expect(dyno!.points).toHaveLength(11);
  expect(traces[0]!.pressure).toHaveLength(180);
  expect(warnings).toEqual([]);
});
