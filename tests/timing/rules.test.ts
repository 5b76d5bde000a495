/**
 * Rules of thumb: the baseline engine breaks none, and for each rule a case that breaks it gets the advice that it must
 * give. What each rule calls usual is common practice or a handbook's figure, named in the rule itself.
 */
import { describe, expect, it } from 'vitest';
import type { Case } from '../../src/model/case.ts';
import { RULES } from '../../src/timing/rules/all-rules.ts';
import { checkReport } from '../../src/timing/rules/report.ts';
import {
  MM,
  resized,
  ruleOf,
  withEngine,
  withExhaust,
  withPassage,
  withSections,
  withTarget,
  withTransfers,
} from './odd-engines.ts';
import { engine, saltmarsh } from './saltmarsh.ts';

it('the baseline breaks no rule, and every rule speaks', () => {
  const { rules } = checkReport(saltmarsh);
  expect(rules).toHaveLength(RULES.length);
  expect(new Set(rules.map((r) => r.id)).size).toBe(RULES.length);
  expect(rules.filter((r) => r.outside !== 'no')).toEqual([]);
  for (const rule of rules) {
    expect(rule.reason.length).toBeLessThanOrEqual(76);
    expect(rule.source).toMatch(/no source|Jennings|Blair/);
    expect(rule.advice).toMatch(/\.$/);
  }
});

interface Broken {
  readonly id: string;
  readonly outside: string;
  readonly subject: Case;
  readonly advice: RegExp;
  readonly bmep?: number;
}

const broken: readonly Broken[] = [
  {
    id: 'exhaust-window-width',
    outside: 'above',
    subject: withExhaust({ width: 42 * MM }),
    advice: /^Narrow by 4\.3 mm, bridge it/,
  },
  {
    id: 'exhaust-window-width',
    outside: 'below',
    subject: withExhaust({ width: 30 * MM }),
    advice: /^Room to widen by about \d/,
  },
  {
    id: 'exhaust-total-width',
    outside: 'above',
    subject: withExhaust({ count: 2, width: 29 * MM, aroundDeg: 35 }),
    advice: /^Take 4\.0 mm off in all/,
  },
  {
    id: 'exhaust-total-width',
    outside: 'below',
    subject: withExhaust({ width: 25 * MM }),
    advice: /^2\.0 mm short of half the bore/,
  },
  {
    id: 'exhaust-transfer-land',
    outside: 'below',
    subject: withTransfers({ aroundDeg: 70 }),
    advice: /^Move the nearest transfer 4\.1 mm away/,
  },
  {
    id: 'exhaust-transfer-land',
    outside: 'above',
    subject: withTransfers({ aroundDeg: 110 }),
    advice: /^Wall to spare: \d/,
  },
  {
    id: 'exhaust-transfer-land',
    outside: 'unknown',
    subject: withTransfers({ aroundDeg: null }),
    advice: /^Give `around`/,
  },
  {
    id: 'exhaust-duration',
    outside: 'below',
    subject: withExhaust({ roof: { by: 'duration', durationDeg: 182 } }),
    advice:
      /^8\.0 deg short of 190, usual at 20\.0 m\/s\. The next 2 deg \(roof 0\.\d+ mm up\) buy \d+ % blowdown/,
  },
  {
    id: 'exhaust-duration',
    outside: 'above',
    subject: withExhaust({ roof: { by: 'duration', durationDeg: 206 } }),
    advice: /^4\.0 deg beyond 202, usual at 20\.0 m\/s: trapped stroke is going/,
  },
  {
    id: 'blowdown-time-area',
    outside: 'below',
    subject: saltmarsh,
    bmep: 13e5,
    advice: /^1\.00 of 1\.37 ms\/m at 11000 rpm; serves 10\.0 bar\. By the rule it wants a higher/,
  },
  {
    id: 'blowdown-time-area',
    outside: 'above',
    subject: saltmarsh,
    bmep: 6e5,
    advice: /More than this fit asks for\.$/,
  },
  {
    id: 'blowdown-time-area',
    outside: 'unknown',
    subject: saltmarsh,
    bmep: 1e5,
    advice: /needs no blowdown/,
  },
  {
    id: 'transfer-time-area',
    outside: 'below',
    subject: withTransfers({}),
    advice: /By the rule it wants wider transfers/,
  },
  {
    id: 'transfer-time-area',
    outside: 'above',
    subject: saltmarsh,
    bmep: 7e5,
    advice: /More than this fit asks for\.$/,
  },
  {
    id: 'passage-exit-area',
    outside: 'above',
    subject: withPassage({ exitArea: 9.3e-4 }),
    advice: /^75 % is 640 mm2, 28\.5 mm round: the rule would make it smaller/,
  },
  {
    id: 'passage-exit-area',
    outside: 'below',
    subject: withPassage({ exitArea: 5e-4 }),
    advice: /^75 % is 640 mm2, .*: the rule would open it/,
  },
  {
    id: 'passage-exit-mach',
    outside: 'above',
    subject: withPassage({ exitArea: 3e-4 }),
    advice: /^Near choking by estimate for 10 bar/,
  },
  {
    id: 'passage-exit-mach',
    outside: 'below',
    subject: withPassage({ exitArea: 14e-4 }),
    advice: /^Slow by estimate for 10 bar/,
  },
  {
    id: 'header-entry-area',
    outside: 'above',
    subject: resized('header', 235, 40, 41),
    advice: /equal area is 33\.0 mm: a narrower header/,
  },
  {
    id: 'header-entry-area',
    outside: 'below',
    subject: resized('header', 235, 28, 30),
    advice: /equal area is 33\.0 mm: a wider header/,
  },
  {
    id: 'diffuser-angle',
    outside: 'above',
    subject: resized('diffuser', 120, 41, 97),
    advice: /^Stages 26\.3, 26\.3 deg; 8 deg in all is 400\.4 mm: gentler/,
  },
  {
    id: 'diffuser-angle',
    outside: 'below',
    subject: resized('diffuser', 400, 41, 97),
    advice: /steeper sucks harder/,
  },
  {
    id: 'baffle-angle',
    outside: 'above',
    subject: resized('baffle', 120, 97, 22),
    advice: /^20 deg is 212\.7 mm: longer spreads/,
  },
  {
    id: 'baffle-angle',
    outside: 'below',
    subject: resized('baffle', 330, 97, 22),
    advice: /a shorter baffle/,
  },
  {
    id: 'baffle-angle',
    outside: 'unknown',
    subject: withSections((part) => (part.role === 'baffle' ? { ...part, role: 'stinger' } : part)),
    advice: /nothing sends the wave back/,
  },
  {
    id: 'belly-diameter',
    outside: 'above',
    subject: resized('belly', 95, 115, 115),
    advice: /^Belly 115\.0 mm; 3\.25 is 93\.5 mm/,
  },
  {
    id: 'belly-diameter',
    outside: 'below',
    subject: withSections((part) =>
      Math.max(...part.diameter) > 60 * MM ? { ...part, diameter: [60 * MM, 60 * MM] } : part,
    ),
    advice: /^Belly 60\.0 mm; 2\.25 is 64\.7 mm/,
  },
  {
    id: 'stinger-diameter',
    outside: 'below',
    subject: resized('stinger', 265, 18, 18),
    advice: /^0\.58 to 0\.62 is 19\.4 mm to 20\.8 mm: open it before leaning/,
  },
  {
    id: 'stinger-diameter',
    outside: 'above',
    subject: resized('stinger', 265, 26, 26),
    advice: /the plug-back loses strength/,
  },
  {
    id: 'stinger-length',
    outside: 'below',
    subject: resized('stinger', 120, 22, 22),
    advice: /^Twelve are 264\.0 mm\.$/,
  },
  {
    id: 'stinger-length',
    outside: 'above',
    subject: resized('stinger', 400, 22, 22),
    advice: /^Twelve are 264\.0 mm\.$/,
  },
  {
    id: 'tuned-length',
    outside: 'above',
    subject: resized('header', 400, 33.5, 41),
    advice: /^221\.2 mm longer than the handbook's for 11000 rpm: the length suits \d+ rpm.*Sweep decides\.$/,
  },
  {
    id: 'tuned-length',
    outside: 'below',
    subject: resized('header', 70, 33.5, 41),
    advice:
      /^108\.8 mm shorter than the handbook's for 11000 rpm: the length suits 12\d+ rpm by the handbook\. Sweep decides\.$/,
  },
  {
    id: 'crankcase-compression',
    outside: 'below',
    subject: withEngine({ crankcase: { ...engine.crankcase, volume: 600e-6 } }),
    advice: /^1\.3 would be 416 cm3/,
  },
  {
    id: 'crankcase-compression',
    outside: 'above',
    subject: withEngine({ crankcase: { ...engine.crankcase, volume: 200e-6 } }),
    advice: /^1\.55 would be 227 cm3/,
  },
  { id: 'mean-piston-speed', outside: 'above', subject: withTarget(14_000), advice: /^24 m\/s is 13211 rpm/ },
  { id: 'mean-piston-speed', outside: 'below', subject: withTarget(5000), advice: /23 m\/s is 12661 rpm/ },
];

describe('a case that breaks a rule', () => {
  it.each(broken)('$id, $outside', ({ id, outside, subject, advice, bmep }) => {
    const rule = ruleOf(subject, id, bmep);
    expect(rule.outside).toBe(outside);
    expect(rule.advice).toMatch(advice);
  });

  it('every rule is broken at least once here', () => {
    const seen = new Set(broken.map((b) => b.id));
    expect(checkReport(saltmarsh).rules.filter((r) => !seen.has(r.id))).toEqual([]);
  });
});
