/**
 * Ring: identity. What a contradiction of `check` and `sweep` is: `check` orders a change of a length, a bore or a roof, which
 * only `sweep` can know to help. A rule of thumb may say what it would give; what is done to the metal is not its to say.
 * Only cautions for the engine's life are orders. So no wording of a rule may tell to change the pipe, on any case, whatever
 * speed is aimed at, and what the rule measures long or short is left to `sweep` by name.
 */

import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { checkReport } from '../../src/timing/rules/report.ts';
import { CASES } from '../case/files.ts';

const shipped = readdirSync(CASES, { recursive: true, encoding: 'utf8' })
  .filter((file) => /(draft-\w|case)\.yaml$/.test(file))
  .map((file) => ({ name: file, path: join(CASES, file) }));

/** The invented engines of the studies: reed, piston port and disc, with good, short, long and narrow pipes. */
const studies = new URL('../studies/engines/make.mjs', import.meta.url).href;
const { studyEngines } = (await import(studies)) as {
  readonly studyEngines: readonly { readonly name: string; readonly text: string }[];
};
const folder = mkdtempSync(join(tmpdir(), 'echocone-no-contradiction-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const invented = studyEngines.map(({ name, text }) => {
  const path = join(folder, `${name}.yaml`);
  writeFileSync(path, text);
  return { name, path };
});

/** A sentence that begins by telling to change metal that moves the wave. */
const order =
  /(^|[.:;] )(lengthen|shorten|open the|fill|sleeve|raise|lower(?! in)|cut|widen the (header|belly|stinger))\b/i;
/** Rules about lengths, bores and roofs that a sweep computes. */
const swept =
  /tuned-length|passage-exit|baffle|diffuser|belly|stinger-length|header-entry|blowdown|transfer-time|exhaust-duration/;

test.each([...shipped, ...invented])(
  '$name: check measures and orders nothing that sweep decides',
  ({ path }) => {
    const speeds = loadCase(path).run.speeds;
    const lengths = [speeds[0], loadCase(path).run.targetSpeed, speeds.at(-1)].map((speed) => {
      const report = checkReport(loadCase(path, { set: [`run.targetSpeed=${speed} rpm`] }));
      const rules = report.rules.filter(({ id }) => swept.test(id));
      expect(rules.length).toBeGreaterThan(8);
      for (const { advice } of rules) expect(advice).not.toMatch(order);
      return rules.find(({ id }) => id === 'tuned-length');
    });
    // Over the range of speeds the same length is outside the usual at one end at least, and is left to the sweep there.
    const outside = lengths.filter((rule) => rule?.outside !== 'no');
    expect(outside.length).toBeGreaterThan(0);
    for (const rule of outside) expect(rule?.advice).toMatch(/Sweep decides\.$/);
  },
);

test('the sentences that were orders are known for such', () => {
  for (const was of [
    'Short by 147.5 mm for 9000 rpm: it suits 11000. Lengthen the header.',
    'Fill or sleeve the exit: 75 % is 640 mm2',
    'Open the exit: 75 % is 640 mm2',
  ])
    expect(was).toMatch(order);
});
