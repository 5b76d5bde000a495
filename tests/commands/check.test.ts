/** `check` as the command line runs it: the example cases on two screens of 80 columns, and the same as data. */
import { describe, expect, it } from 'vitest';
import { run } from '../../src/commands/check.ts';
import { commonFlags, flagsOf } from '../../src/commands/frame/flags.ts';
import type { Invocation } from '../../src/commands/frame/verb.ts';

const root = new URL('../..', import.meta.url).pathname;

async function answerOf(file: string, flags: { json?: boolean; set?: string[] } = {}): Promise<string> {
  let answer = '';
  const ignore = () => {};
  await run({
    verb: 'check',
    files: [`${root}cases/${file}`],
    flags: flagsOf({ quiet: true, ...flags }, commonFlags),
    terminal: {
      colour: false,
      answer: (text) => {
        answer += text;
      },
      message: ignore,
      warning: ignore,
      progress: () => {
        throw new Error('check shows no progress');
      },
    },
    signal: new AbortController().signal,
    program: 'echocone',
  } satisfies Invocation);
  return answer;
}

describe('check', () => {
  it.each([
    'saltmarsh-125/draft-a.yaml',
    'saltmarsh-125/draft-b.yaml',
    'saltmarsh-125/draft-c.yaml',
    'bench-50/case.yaml',
    'bench-250/case.yaml',
  ])('%s fits two screens of 80 columns', async (file) => {
    const lines = (await answerOf(file)).trimEnd().split('\n');
    expect(lines.length).toBeLessThanOrEqual(96);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(lines.join('\n')).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('says of a wall that it is assumed, first of all, and how many assumptions are not shown', async () => {
    const text = (await answerOf('saltmarsh-125/draft-a.yaml')).replaceAll('\n', ' ');
    expect(text).toContain('Wall assumed 450 to 200 degC.');
    expect(text).toContain('Assumed (reasons: --json): pipe.wall 450 degC at the flange to 200 degC');
    expect(text).not.toContain('…');
    const [, list = '', more = '0'] =
      /Assumed \(reasons: --json\): (.*); and (\d+) more \(--json\)\./.exec(text) ?? [];
    const shown = list.split('; ').reduce((sum, one) => sum + Number(/\((\d+)\)$/.exec(one)?.[1] ?? 1), 0);
    const { assumed } = JSON.parse(await answerOf('saltmarsh-125/draft-a.yaml', { json: true }));
    const quantities = assumed.filter(({ sort }: { sort: string }) => sort === 'quantity');
    expect(shown + Number(more)).toBe(quantities.length);
  });

  it('says of a stated wall that it is given', async () => {
    const text = await answerOf('saltmarsh-125/draft-a.yaml', { set: ['pipe.wall.given=300 degC'] });
    expect(text.replaceAll('\n', ' ')).toContain('Wall given 300 degC.');
    expect(text).not.toContain('pipe.wall');
  });

  it('gives the same as data with --json', async () => {
    const report = JSON.parse(await answerOf('saltmarsh-125/draft-a.yaml', { json: true }));
    expect(report.schemaVersion).toBe(1);
    const text = await answerOf('saltmarsh-125/draft-a.yaml');
    expect(text).toContain(report.events.blowdownDeg.toFixed(1));
    for (const rule of report.rules) expect(text).toContain(rule.title);
    for (const { port, found, usual, source } of report.timeAreasHandbook) {
      const range = usual.map((s: number) => (s * 100).toFixed(2)).join('-');
      expect(text.replaceAll('\n', ' ')).toContain(`${port} ${(found * 100).toFixed(2)} (wants ${range})`);
      expect(text.replaceAll('\n', ' ')).toContain(source);
    }
    for (const part of report.sections) expect(text).toContain(part.name);
  });

  it('answers what-if questions: a wider window, a higher roof, a lifted barrel', async () => {
    const read = async (...set: string[]) =>
      JSON.parse(await answerOf('saltmarsh-125/draft-a.yaml', { json: true, set }));
    const plain = await read();
    const wider = await read('engine.exhaust.windows.main.width=42 mm');
    expect(wider.areas.exhaust).toBeGreaterThan(plain.areas.exhaust);
    expect(wider.events).toEqual(plain.events);
    const lifted = await read('engine.barrelLift=0.5 mm');
    expect(lifted.events.exhaustDurationDeg).toBeGreaterThan(plain.events.exhaustDurationDeg + 1);
    expect(lifted.windows[0].roofTravel).toBeCloseTo(plain.windows[0].roofTravel - 0.5e-3, 9);
  });
});
