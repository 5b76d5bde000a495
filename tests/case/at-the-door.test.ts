/** Ring: identity. Files that once crashed the program or held it up are refused at the door, or run. */

import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadCase, loadPipe, loadPulse } from '../../src/case/load.ts';
import { loadStudy } from '../../src/case/study/study-load.ts';
import { speedsFlag, threadsFlag } from '../../src/commands/frame/flag-values.ts';
import { runPulse } from '../../src/study/pulse/run-pulse.ts';
import { CASES, DRAFTS, file, problems } from './files.ts';

const repro = (name: string): string => new URL(`../repro/${name}.yaml`, import.meta.url).pathname;
const draft = join(DRAFTS, 'saltmarsh-125/draft-a.yaml');
const withSet = (...set: string[]): string => problems(() => loadCase(draft, { set }));

describe('a mixture that cannot burn', () => {
  test('for want of oxygen is refused', () => {
    expect(problems(() => loadCase(repro('crash-rich-400084')))).toMatch(
      /engine\.fuel\.equivalenceRatio: a mixture of 2\.16 is too rich to burn/,
    );
  });

  test('with less heat than its carbon monoxide keeps is refused', () => {
    expect(withSet('engine.fuel.equivalenceRatio=2', 'engine.fuel.lowerHeatingValue=20 MJ/kg')).toMatch(
      /gives off no heat in a mixture of 2/,
    );
  });

  test('that a spark hardly lights is warned of, and petrol at 1.1 is not', () => {
    expect(loadCase(draft, { set: ['engine.fuel.equivalenceRatio=1.8'] }).warnings.join()).toMatch(
      /hardly lights/,
    );
    expect(loadCase(draft).warnings.join()).not.toMatch(/hardly lights/);
  });
});

describe('pulses', () => {
  test.each(['pulse-step-crash', 'pulse-inch-crash'])('%s runs: a hair of a step is none', (name) => {
    const { balance, ducts } = runPulse({ ...loadPulse(repro(name)), cell: 0.02 });
    // 38 mm to 1.5 in is a tenth of a millimetre and a rounding more: a step, which is marched as one.
    expect(ducts).toHaveLength(name === 'pulse-step-crash' ? 1 : 2);
    expect(Math.abs(balance.massError)).toBeLessThan(1e-9);
  });

  test('whose waves run away end with a reason', () => {
    // The textbook scheme heats a closed end to millions of kelvins here, and each step is shorter than the one before.
    const pulse = loadPulse(repro('pulse-hang-609'));
    expect(() => runPulse({ ...pulse, cell: 0.01 })).toThrow(
      /after [\d.]+ ms steps have all but stopped; at \d+ mm, at .* K and .* Pa, waves run at .* m\/s\. Scheme mesh/,
    );
  });
});

describe('limits', () => {
  test('of memory: a mesh of eight million cells, once the end of the program, is refused in a case and in its study', () => {
    const refused = /run\.cell: gives 7765680 cells; at most 20000/;
    expect(problems(() => loadCase(repro('alloc-case')))).toMatch(refused);
    expect(problems(() => loadStudy(repro('alloc-study'), { set: [], columns: ['torque_nm'] }))).toMatch(
      refused,
    );
  });

  test('of the Courant number and of the cells', () => {
    expect(withSet('run.courant=0.01')).toMatch(/run\.courant/);
    expect(withSet('run.cell=0.1 mm', 'pipe.sections.header.length=19 m')).toMatch(
      /\d+ cells; at most 20000/,
    );
  });

  test('of speeds and threads on the command line', () => {
    expect(() => speedsFlag('99')).toThrow(/from 100 to 40000 rpm/);
    expect(() => speedsFlag('6000:12000:1')).toThrow(/at most/);
    expect(speedsFlag('100,40000')).toEqual([100, 40000]);
    expect(() => threadsFlag('9999')).toThrow(/for each core/);
    expect(threadsFlag('1')).toBe(1);
  });

  test('of what is opened: a folder, a pipe, a device', () => {
    const folder = file('a-folder.yaml', '');
    rmSync(folder);
    mkdirSync(folder);
    expect(() => loadCase(folder)).toThrow(/is a folder/);
    const pipe = join(folder, 'pipe.yaml');
    execFileSync('mkfifo', [pipe]);
    expect(() => loadCase(pipe)).toThrow(/is no plain file/);
    expect(() => loadCase('/dev/zero')).toThrow(/is no plain file/);
  });

  test('of problems: thousands of unknown keys end at once', () => {
    const keys = Array.from({ length: 16_000 }, (_, k) => `unknownKeyNumber${k}: 1`).join('\n');
    const begun = process.cpuUsage();
    expect(problems(() => loadCase(file('keys.yaml', `kind: case\n${keys}\n`)))).toMatch(
      /reading stopped there/,
    );
    // They took 16 s of a processor.
    expect(1e-6 * process.cpuUsage(begun).user).toBeLessThan(5);
  });
});

describe('what is read in a time in proportion to its length', () => {
  const aliases = (count: number) =>
    `kind: pipe\nname: &a "*no alias"\nsections: [${'*a,'.repeat(count)}1]\n`;
  const timed = (text: string): number => {
    const path = file('long.yaml', text);
    const begun = process.cpuUsage();
    expect(problems(() => loadPipe(path))).toMatch(/reading stopped there/);
    const { user, system } = process.cpuUsage(begun);
    return 1e-6 * (user + system);
  };

  test('600 000 aliases are refused without a node for each', () => {
    // They took 18 s of a processor, most of it to clear away.
    expect(timed(aliases(600_000))).toBeLessThan(3);
  });

  test('a few aliases have their places, and asterisks in words are no aliases', () => {
    const stars = Array.from({ length: 200 }, () => '# * * *\n').join('');
    const text = `kind: pipe\nname: a*b\nnote: "${'*'.repeat(300)}"\nsections: [*a]\n`;
    expect(problems(() => loadPipe(file('few.yaml', stars + text)))).toMatch(
      /few\.yaml:204:12: .*(anchors and aliases are not used|alias)/i,
    );
    expect(problems(() => loadPipe(file('many.yaml', aliases(60))))).toMatch(
      /many\.yaml:3:12: anchors and aliases are not used in case files\n {2}3 \| sections: \[\*a,/,
    );
  });
});

describe('a file named by another', () => {
  test('does not have its lines shown where it is of another kind', () => {
    const secret = file('secret.txt', 'top: secret\n  word: [unclosed\n');
    const text = `kind: case\nengine: ${secret}\npipe: ${join(CASES, 'saltmarsh-125/pipe-a.yaml')}\n`;
    const message = problems(() => loadCase(file('names.yaml', text)));
    expect(message).toMatch(/is no engine file/);
    expect(message).not.toMatch(/unclosed|top: secret/);
  });
});
