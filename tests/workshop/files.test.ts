/**
 * Ring: identity. SVG and DXF of the patterns read back, the DXF by a general-purpose parser from the registry
 * (dxf-parser), and the command that writes them, on the built program.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import loaded, {
  type DxfParser,
  type IArcEntity,
  type ILineEntity,
  type ILwpolylineEntity,
} from 'dxf-parser';
import { afterAll, describe, expect, test } from 'vitest';
import { loadPipe } from '../../src/case/load.ts';
import { pipeDocument } from '../../src/case/pipe/pipe-document.ts';
import { boxOf, type Drawing, endOf, type Place, type Stroke } from '../../src/workshop/drawing.ts';
import { dxfText } from '../../src/workshop/dxf.ts';
import { paperFor } from '../../src/workshop/paper.ts';
import { partsOf } from '../../src/workshop/parts.ts';
import { type Pattern, patternOf } from '../../src/workshop/pattern.ts';
import { svgText } from '../../src/workshop/svg.ts';
import { bent, none, pipeOf, section } from './made.ts';

/** What the package gives at run time is the class itself, whatever its types say. */
const Parser = loaded as unknown as typeof DxfParser;

const hostile = '<script>alert(1)</script> & "Söhne"\u0007\n%%c';
const allowances = { ...none, seam: 0.006, joint: 0.004 };

const baffle = (name = 'baffle'): Pattern =>
  patternOf(partsOf(pipeOf([section('baffle', 'baffle', 210, 102, 23)]), 0.0008)[0]!, allowances, name);

/** Points along what was read back of a layer. */
function readBack(text: string, layer: string): readonly Place[] {
  const entities = new Parser().parseSync(text)?.entities ?? [];
  return entities
    .filter((entity) => entity.layer === layer)
    .flatMap((entity): readonly Place[] => {
      if (entity.type === 'LINE' || entity.type === 'LWPOLYLINE')
        return (entity as ILineEntity | ILwpolylineEntity).vertices.map(({ x, y }) => [x, y]);
      if (entity.type !== 'ARC') throw new Error(`a ${entity.type} on layer ${layer}`);
      const { center, radius, startAngle, endAngle } = entity as IArcEntity;
      const sweep = (endAngle - startAngle + 4 * Math.PI) % (2 * Math.PI);
      return [0, 0.25, 0.5, 0.75, 1].map((share) => {
        const angle = startAngle + share * sweep;
        return [center.x + radius * Math.cos(angle), center.y + radius * Math.sin(angle)];
      });
    });
}

/** The same points of the strokes as drawn. */
const drawnPlaces = (strokes: readonly Stroke[]): readonly Place[] =>
  strokes.flatMap((stroke) => {
    if (stroke.kind === 'line') return [stroke.from, stroke.to];
    if (stroke.kind === 'path') return stroke.places;
    return [0, 0.25, 0.5, 0.75, 1].map((share) => endOf({ ...stroke, sweepDeg: share * stroke.sweepDeg }));
  });

const farthest = (from: readonly Place[], to: readonly Place[]): number =>
  Math.max(...from.map(([x, y]) => Math.min(...to.map(([u, v]) => Math.hypot(x - u, y - v)))));

describe('DXF, read by an independent parser', () => {
  const parts = partsOf(bent, 0.0008);
  const drawings: readonly (readonly [string, Drawing])[] = [
    ['a cone cut square', baffle().drawing],
    ...parts
      .slice(0, 2)
      .map((part): readonly [string, Drawing] => [part.name, patternOf(part, allowances, 'x').drawing]),
    [
      'a mitred piece of a cone',
      patternOf(
        parts.find(({ section: { name }, middle }) => name === 'diffuser' && middle.start !== null)!,
        allowances,
        'x',
      ).drawing,
    ],
    ['a tube', patternOf(parts.find(({ section: { name } }) => name === 'belly')!, none, 'x').drawing],
  ];

  test.each(drawings)('%s has its geometry to 0.001 mm on layers of its own', (_, drawing) => {
    const text = dxfText([drawing]);
    const layers: readonly (readonly [string, readonly Stroke[]])[] = [
      ['cut', drawing.outlines.flat()],
      ['fold', drawing.folds],
      ['mark', drawing.marks],
    ];
    for (const [layer, strokes] of layers) {
      const [drawn, read] = [drawnPlaces(strokes), readBack(text, layer)];
      expect(read).toHaveLength(drawn.length);
      if (drawn.length === 0) continue;
      expect(farthest(drawn, read)).toBeLessThan(0.001);
      expect(farthest(read, drawn)).toBeLessThan(0.001);
    }
    const letters = (new Parser().parseSync(text)?.entities ?? []).filter(({ layer }) => layer === 'engrave');
    expect(letters.map(({ type }) => type)).toEqual(drawing.lettering.map(() => 'TEXT'));
  });

  test('says that its unit is the millimetre, and has the four layers', () => {
    const file = new Parser().parseSync(dxfText([baffle().drawing]));
    // $INSUNITS 4: millimetres (DXF Reference, HEADER section).
    expect(file?.header.$INSUNITS).toBe(4);
    expect(Object.keys(file?.tables.layer.layers ?? {})).toEqual(
      expect.arrayContaining(['cut', 'fold', 'mark', 'engrave']),
    );
  });

  test('letters ASCII without control codes', () => {
    const text = dxfText([baffle(hostile).drawing]);
    expect(text).toMatch(/^[\x20-\x7e\n]*$/);
    expect(text).not.toContain('%');
    expect(text).toContain('"Sohne"');
  });
});

describe('SVG', () => {
  test('is of true size in millimetres', () => {
    const { drawing, piece } = baffle();
    const svg = svgText(drawing);
    const [, width, height, boxWidth, boxHeight] =
      /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg) ?? [];
    expect(width).toBe(boxWidth);
    expect(height).toBe(boxHeight);
    expect(Number(width)).toBeCloseTo(piece.width + 10, 3);
    const box = boxOf(drawing.outlines.flat());
    expect(box.right - box.left).toBeCloseTo(piece.width, 9);
  });

  test('has user text as text', () => {
    const svg = svgText(baffle(hostile).drawing);
    expect(svg).not.toContain('<script');
    expect(svg).toContain('&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;Söhne&quot;');
    expect(svg.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  });
});

test('paper with room for the printer’s margin', () => {
  expect(paperFor(200, 287)).toBe('A4');
  expect(paperFor(287, 200)).toBe('A4');
  expect(paperFor(201, 287)).toBe('A3');
  expect(paperFor(900, 1300)).toBeNull();
});

describe('echocone unroll', () => {
  const main = fileURLToPath(new URL('../../dist/src/main.js', import.meta.url));
  const cases = fileURLToPath(new URL('../../cases/saltmarsh-125/', import.meta.url));
  const draft = join(cases, 'draft-a.yaml');
  const above = mkdtempSync(join(tmpdir(), 'echocone-unroll-'));
  const folder = join(above, 'patterns');
  afterAll(() => rmSync(above, { recursive: true, force: true }));
  const run = (...words: string[]) =>
    spawnSync(process.execPath, [main, 'unroll', ...words], { encoding: 'utf8' });
  const lines = (text: string): readonly string[] => text.split('\n');

  test('writes patterns, sheets, prints, a drawing, a cut list and a page of a bent pipe file', () => {
    const bentPipe = join(cases, 'bent/pipe-a-bent.yaml');
    const { status, stdout, stderr } = run(
      bentPipe,
      '--out',
      folder,
      '--seam',
      '6mm',
      '--hydroform',
      '--set',
      'bends.1.plane=180 deg',
    );
    expect(stderr).toContain('gloves');
    expect(status).toBe(0);
    const names = readdirSync(folder);
    const patterns = names.filter((name) => /^\d\d-.*\.svg$/.test(name));
    expect(patterns.length).toBeGreaterThan(20);
    for (const name of patterns) expect(names).toContain(name.replace('.svg', '.dxf'));
    for (const name of ['sheet-1', 'hydroform-half'])
      expect(names).toEqual(expect.arrayContaining([`${name}.svg`, `${name}.dxf`]));
    expect(names).toEqual(
      expect.arrayContaining([
        'print-a4.html',
        'print-a3.html',
        'drawing.svg',
        'cut-list.csv',
        'unroll.html',
      ]),
    );
    expect(JSON.parse(readFileSync(join(folder, 'run.json'), 'utf8'))).toMatchObject({
      kind: 'unroll',
      page: 'unroll.html',
      line: expect.stringMatching(/^\d+ patterns for 0\.8 mm sheet/),
    });
    // The folder's own name may be longer than a line.
    for (const line of [...lines(stdout), ...lines(stderr)].filter((one) => !one.includes(folder)))
      expect(line.length, line).toBeLessThanOrEqual(80);
    for (const name of names)
      expect(readFileSync(join(folder, name), 'utf8'), name).not.toMatch(/NaN|undefined|Infinity/);
    const [head, ...rows] = lines(readFileSync(join(folder, 'cut-list.csv'), 'utf8').trimEnd());
    expect(rows).toHaveLength(patterns.length);
    for (const column of ['blank_width_mm', 'seam_weld_mm', 'joint_weld_mm', 'mass_g'])
      expect(head?.split(',')).toContain(column);
  });

  test('refuses the folder a second time, unless told', () => {
    expect(run(draft, '--out', folder).status).toBe(6);
    expect(run(draft, '--out', folder, '--overwrite', '--quiet').status).toBe(0);
  });

  test('--json is one document with the same figures', () => {
    const { stdout } = run(draft, '--out', folder, '--overwrite', '--json', '--thickness', '1mm');
    const document = JSON.parse(stdout);
    expect(document).toMatchObject({ schemaVersion: 1, kind: 'unroll', thickness: 0.001, seam: 0 });
    expect(document.centrelineMm).toBeCloseTo(1050, 9);
    for (const { kind, sweepDeg, slantMostMm, innerRadiusMm, outerRadiusMm } of document.patterns) {
      if (kind === 'cone') expect(outerRadiusMm - innerRadiusMm).toBeCloseTo(slantMostMm, 6);
      else expect(sweepDeg).toBeNull();
    }
  });

  test('what cannot be made is refused with what to change, and leaves no folder', () => {
    const refused = (...words: string[]): string => {
      const { status, stderr } = run(draft, ...words, '--out', `${folder}-x`);
      expect(status).toBe(2);
      expect(readdirSync(above)).not.toContain('patterns-x');
      return stderr;
    };
    expect(refused('--sheet', '60x60mm')).toMatch(/sheet of 60 x 60 mm is too small/);
    expect(refused('--set', 'pipe.sections.baffle.length=30 mm')).toMatch(/too steep to roll/);
    expect(refused('--thickness', '3mm')).toMatch(/too narrow to roll cold/);
  });

  test('a wrong case, a missing file, a bad flag have their exit codes', () => {
    expect(run(draft, '--set', 'pipe.sections.0.lenght=1 mm', '--out', `${folder}-x`).status).toBe(3);
    expect(run('no-such-case.yaml').status).toBe(6);
    expect(run(draft, '--thickness', 'thick').status).toBe(2);
    expect(run(draft, '--sheet', '2000').status).toBe(2);
    expect(run().status).toBe(2);
  });

  test('a finished pipe by its circumferences: the sheet it states is what is unrolled', () => {
    const file = join(above, 'measured.yaml');
    writeFileSync(
      file,
      `kind: pipe\nsheet: 1 mm\nsections:\n  - { name: baffle, length: 200 mm, circumference: [${(102 * Math.PI).toFixed(6)} mm, ${(102 * Math.PI).toFixed(6)} mm], role: belly }\n`,
    );
    const { stdout } = run(file, '--out', join(above, 'measured'), '--json');
    const [blank] = JSON.parse(stdout).patterns;
    // 102 mm outside of 1 mm sheet is 100 mm inside, and 101 mm in its middle.
    expect(blank.insideStartMm).toBeCloseTo(100, 6);
    expect(blank.widthMm).toBeCloseTo(101 * Math.PI, 6);
  });

  test('unrolls at once what aim writes, bends and all', () => {
    const file = join(above, 'aimed.yaml');
    const before = loadPipe(join(cases, 'bent/pipe-a-bent.yaml'));
    const sections = before.sections.map((one) =>
      one.role === 'baffle' ? { ...one, length: 0.2234567 } : one,
    );
    writeFileSync(file, pipeDocument({ ...before, sections }, 'aimed at 10 500 rpm', 'assumed'));
    const { stdout, stderr, status } = run(file, '--out', join(above, 'aimed'), '--json');
    expect(status, stderr).toBe(0);
    const document = JSON.parse(stdout);
    const length = 1000 * sections.reduce((sum, one) => sum + one.length, 0);
    expect(document.centrelineMm).toBeCloseTo(length, 3);
    const cut = document.patterns.reduce((sum: number, one: { lengthMm: number }) => sum + one.lengthMm, 0);
    expect(cut).toBeCloseTo(length, 3);
    expect(document.patterns.some(({ ends }: { ends: string }) => ends === 'mitred')).toBe(true);
  });
});
