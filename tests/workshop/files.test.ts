/** SVG and DXF files of the patterns read back, and the command that writes them, on the built program. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Section } from '../../src/model/section.ts';
import { boxOf } from '../../src/workshop/drawing.ts';
import { dxfText } from '../../src/workshop/dxf.ts';
import { paperFor } from '../../src/workshop/paper.ts';
import { patternOf } from '../../src/workshop/pattern.ts';
import { svgText } from '../../src/workshop/svg.ts';

const baffle: Section = {
  name: 'baffle',
  role: 'baffle',
  length: 0.21,
  diameter: [0.102, 0.023],
  step: false,
};
const hostile = '<script>alert(1)</script> & "Söhne"\u0007\n%%c';

/** Entities of a DXF text: type, layer and groups. */
function entitiesOf(text: string): { type: string; groups: Map<number, string> }[] {
  const lines = text.trimEnd().split('\n');
  expect(lines.length % 2).toBe(0);
  const pairs = Array.from({ length: lines.length / 2 }, (_, i): [number, string] => {
    const code = Number(lines[2 * i]);
    expect(Number.isInteger(code)).toBe(true);
    return [code, lines[2 * i + 1] as string];
  });
  const start = pairs.findIndex(([code, value]) => code === 2 && value === 'ENTITIES');
  const entities: { type: string; groups: Map<number, string> }[] = [];
  for (const [code, value] of pairs.slice(start + 1)) {
    if (code === 0 && value === 'ENDSEC') break;
    if (code === 0) entities.push({ type: value, groups: new Map() });
    else entities.at(-1)?.groups.set(code, value);
  }
  return entities;
}

describe('DXF', () => {
  test('has the outline on layer CUT with its true radii, end to end', () => {
    const { drawing, development } = patternOf(baffle, { thickness: 0.0008, seam: 0.006 }, 'baffle');
    const cut = entitiesOf(dxfText(drawing)).filter(({ groups }) => groups.get(8) === 'CUT');
    expect(cut.map(({ type }) => type)).toEqual(['ARC', 'LINE', 'ARC', 'LINE', 'LINE', 'LINE']);
    if (development.kind !== 'sector') throw new Error('not a cone');
    const radii = cut.filter(({ type }) => type === 'ARC').map(({ groups }) => Number(groups.get(40)));
    expect(radii[0]).toBeCloseTo(development.outerRadius * 1000, 5);
    expect(radii[1]).toBeCloseTo(development.innerRadius * 1000, 5);
    const ends = cut.flatMap(({ type, groups }): [number, number][] => {
      const value = (code: number): number => Number(groups.get(code));
      if (type === 'LINE') {
        return [
          [value(10), value(20)],
          [value(11), value(21)],
        ];
      }
      return [50, 51].map((code) => {
        const direction = (value(code) * Math.PI) / 180;
        return [value(10) + value(40) * Math.cos(direction), value(20) + value(40) * Math.sin(direction)];
      });
    });
    // Every end of a stroke meets exactly one other; the file holds millionths of a millimetre.
    for (const [x, y] of ends) {
      expect(ends.filter(([otherX, otherY]) => Math.hypot(x - otherX, y - otherY) < 1e-5)).toHaveLength(2);
    }
    const sweep = Number(cut[0]?.groups.get(51)) - Number(cut[0]?.groups.get(50));
    expect(sweep).toBeCloseTo((development.sweep * 180) / Math.PI, 7);
  });

  test('letters ASCII without control codes', () => {
    const text = dxfText(patternOf(baffle, { thickness: 0, seam: 0 }, hostile).drawing);
    expect(text).toMatch(/^[\x20-\x7e\n]*$/);
    expect(text).not.toContain('%');
    expect(text).toContain('"Sohne"');
  });
});

describe('SVG', () => {
  test('is of true size in millimetres', () => {
    const { drawing, piece } = patternOf(baffle, { thickness: 0.0008, seam: 0 }, 'baffle');
    const svg = svgText(drawing);
    const [, width, height, boxWidth, boxHeight] =
      /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg) ?? [];
    expect(width).toBe(boxWidth);
    expect(height).toBe(boxHeight);
    expect(Number(width)).toBeGreaterThanOrEqual(piece.width + 10);
    const box = boxOf(drawing.outline);
    expect(box.right - box.left).toBeCloseTo(piece.width, 9);
  });

  test('has user text as text', () => {
    const svg = svgText(patternOf(baffle, { thickness: 0, seam: 0 }, hostile).drawing);
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
  const draft = fileURLToPath(new URL('../../cases/saltmarsh-125/draft-a.yaml', import.meta.url));
  let folder = '';
  const run = (...words: string[]) =>
    spawnSync(process.execPath, [main, 'unroll', ...words], { encoding: 'utf8' });
  beforeAll(() => {
    folder = join(mkdtempSync(join(tmpdir(), 'echocone-unroll-')), 'patterns');
  });

  test('writes an SVG and a DXF for each section and a table of 80 columns', () => {
    const { status, stdout, stderr } = run(draft, '--out', folder, '--seam', '6mm');
    expect(stderr).toContain('gloves');
    expect(status).toBe(0);
    const names = readdirSync(folder);
    expect(names.filter((name) => name.endsWith('.svg')).map((name) => name.replace('.svg', '.dxf'))).toEqual(
      names.filter((name) => name.endsWith('.dxf')),
    );
    expect(names.length).toBeGreaterThanOrEqual(10);
    expect(JSON.parse(readFileSync(join(folder, 'run.json'), 'utf8'))).toMatchObject({
      kind: 'unroll',
      page: './',
      line: expect.stringMatching(/^\d+ patterns for 0\.8 mm sheet/),
    });
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    for (const name of names)
      expect(readFileSync(join(folder, name), 'utf8')).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('refuses the folder a second time, unless told', () => {
    expect(run(draft, '--out', folder).status).toBe(6);
    expect(run(draft, '--out', folder, '--overwrite', '--quiet').status).toBe(0);
  });

  test('--json is one document with the same figures', () => {
    const { stdout } = run(draft, '--out', folder, '--overwrite', '--json', '--thickness', '1mm');
    const document = JSON.parse(stdout);
    expect(document).toMatchObject({ schemaVersion: 1, kind: 'unroll', thickness: 0.001, seam: 0 });
    for (const { kind, sweepDeg, slantMm, innerRadiusMm, outerRadiusMm } of document.patterns) {
      if (kind === 'cone') expect(outerRadiusMm - innerRadiusMm).toBeCloseTo(slantMm, 6);
      else expect(sweepDeg).toBeNull();
    }
  });

  test('a wrong case, a missing file, a bad flag have their exit codes', () => {
    expect(run(draft, '--set', 'pipe.sections.0.lenght=1 mm', '--out', `${folder}-x`).status).toBe(3);
    expect(run('no-such-case.yaml').status).toBe(6);
    expect(run(draft, '--thickness', 'thick').status).toBe(2);
    expect(run().status).toBe(2);
  });
});
