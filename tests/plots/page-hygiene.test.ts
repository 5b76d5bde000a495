import { describe, expect, it } from 'vitest';
import { aimPage } from '../../plots/pages/aim-page.ts';
import { type BesideRun, besideView } from '../../plots/pages/beside.ts';
import { comparePage } from '../../plots/pages/compare-page.ts';
import { indexPage } from '../../plots/pages/index-page.ts';
import { mapPage } from '../../plots/pages/map-page.ts';
import { overnightPage } from '../../plots/pages/overnight-page.ts';
import { pulsePage } from '../../plots/pages/pulse-page.ts';
import { sweepPage } from '../../plots/pages/sweep-page.ts';
import { verifyPage } from '../../plots/pages/verify-page.ts';
import { syntheticChances, syntheticSure } from './synthetic-members.ts';
import {
  syntheticAim,
  syntheticCompare,
  syntheticIndex,
  syntheticMap,
  syntheticOvernight,
  syntheticPulse,
  syntheticVerify,
} from './synthetic-pages.ts';
import { syntheticSweep } from './synthetic-sweep.ts';

/** A page is megabytes long: a failure names what was looked for, not the page. */
const holds = (markup: string, what: string | RegExp): boolean =>
  typeof what === 'string' ? markup.includes(what) : what.test(markup);
const mustHold = (markup: string, what: string | RegExp): void =>
  expect({ what: String(what), found: holds(markup, what) }).toEqual({ what: String(what), found: true });
const mustNotHold = (markup: string, what: string | RegExp): void =>
  expect({ what: String(what), found: holds(markup, what) }).toEqual({ what: String(what), found: false });

const assets = { plotly: 'var p = "</script><!--";', script: 'var s = 1;' };
const sweep = syntheticSweep({ hostile: true, step: 1000 });

const pages: Record<string, string> = {
  sweep: sweepPage(sweep, assets, { date: '<script>', sure: syntheticSure(sweep.rows, 9500, true) }),
  pulse: pulsePage(syntheticPulse(true), assets),
  map: mapPage(syntheticMap(true), assets),
  compare: comparePage(syntheticCompare(true), assets),
  overnight: overnightPage(syntheticOvernight(true), assets),
  aim: aimPage(syntheticAim(true), assets),
  verify: verifyPage(syntheticVerify(true), assets),
  index: indexPage(syntheticIndex(true), assets.script),
};

describe.each(Object.entries(pages))('the %s page', (name, markup) => {
  it('shows a name full of mark-up as text', () => {
    mustHold(markup, '&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;Söhne&quot;');
    mustNotHold(markup, '<script>alert');
  });

  it('has as many scripts as it means to have, and none can end early', () => {
    const scripts = markup.match(/<script/g) ?? [];
    // The index draws without the library.
    expect(scripts).toHaveLength(name === 'index' ? 2 : 3);
    expect(markup.match(/<\/script>/g) ?? []).toHaveLength(scripts.length);
  });

  it('names no address to fetch from and forbids fetching', () => {
    mustHold(markup, "default-src 'none'");
    mustNotHold(markup, /\b(?:src|href)="(?:https?:)?\/\//);
    mustNotHold(markup, /url\(|@import/);
  });

  it('says what program made it, in a title, in one heading of the first rank', () => {
    mustHold(markup, /<title>[^<]+<\/title>/);
    expect(markup.match(/<h1/g)).toHaveLength(1);
    mustHold(markup, 'lang="en-GB"');
  });
});

/** The same data, each text of it turned into mark-up that closes whatever it stands in. Names of kinds stay. */
function poisoned<T>(data: T): T {
  const kinds = new Set(['role', 'kind', 'when', 'startedFrom', 'way']);
  const visit = (value: unknown, key: string): unknown => {
    if (typeof value === 'string') return kinds.has(key) ? value : `'"--></title></dd><x-nasty a=\`>${value}`;
    if (Array.isArray(value)) return value.map((one) => visit(one, key));
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, visit(one, name)]));
  };
  return visit(data, '') as T;
}

/** Texts that come of files: reasons and paths. */
function poisonedSure() {
  const sure = syntheticSure(sweep.rows, 9500, true);
  return { ...sure, inputs: poisoned(sure.inputs) };
}

describe('whatever text a page is given', () => {
  const poison: Record<string, () => string> = {
    sweep: () =>
      sweepPage(poisoned(sweep), assets, {
        ...poisoned({ date: 'today' }),
        sure: poisonedSure(),
      }),
    pulse: () => pulsePage(poisoned(syntheticPulse()), assets),
    map: () => mapPage(poisoned(syntheticMap()), assets),
    compare: () => {
      const compared = poisoned(syntheticCompare());
      const chances = syntheticChances(compared.drafts.map(({ name, sweep: { rows } }) => ({ name, rows })));
      return comparePage({ ...compared, chances }, assets);
    },
    overnight: () => overnightPage(poisoned(syntheticOvernight()), assets),
    aim: () => aimPage(poisoned(syntheticAim()), assets),
    verify: () => verifyPage(poisoned(syntheticVerify()), assets),
    index: () => indexPage(poisoned(syntheticIndex()), assets.script),
  };
  it.each(Object.entries(poison))('the %s page shows it, and it is inert', (_, page) => {
    const markup = page();
    mustHold(markup, '&lt;x-nasty');
    mustNotHold(markup, '<x-nasty');
    mustNotHold(markup, /<\/title>[^<]*<\/dd>/);
  });
});

describe('the sweep page', () => {
  it('spells the events out once and lists what was assumed', () => {
    const page = sweepPage(syntheticSweep({ step: 1000 }), assets);
    expect(page.match(/<i>transfers close<\/i>/g)).toHaveLength(1);
    mustHold(page, 'engine.scavenging.displacement');
    mustHold(page, '12\u202f000\u202frpm did not settle');
  });

  it('puts measured moves beside the inputs when it is given them', () => {
    const inputs = [
      {
        path: 'pipe.wall',
        value: '350 °C',
        assumed: true,
        reason: 'no measurement',
        moves: { change: '+50 K', leadDeg: 2.24, torqueNm: -0.31 },
      },
      { path: 'engine.bore', value: '54 mm', assumed: false },
    ];
    const page = sweepPage(syntheticSweep({ step: 1000 }), assets, { inputs });
    mustHold(page, /\+50.K<\/td><td class="n">\+2\.2<\/td><td class="n">−0\.3</);
    mustHold(page, 'Inputs as given (1)');
  });

  it('says so when no speed was finished, and carries no script then', () => {
    const page = sweepPage({ ...sweep, rows: [], speeds: [] }, assets);
    mustHold(page, 'nothing to draw');
    mustNotHold(page, '<script>');
  });

  it('turns absent readings into gaps, not into text', () => {
    const rows = sweep.rows.map((row) => ({ ...row, plugback_peak_deg: null, torque_nm: null }));
    const page = sweepPage({ ...sweep, rows }, assets);
    mustNotHold(page.slice(0, page.indexOf('id="data"')), /NaN|\bnull\b/);
  });
});

describe('the index', () => {
  it('lists the newest first and links within the folder only', () => {
    mustHold(pages.index ?? '', 'href="./javascript%3Aalert(1)"');
    const plain = indexPage(syntheticIndex(), assets.script);
    expect(plain.indexOf('overnight, 2024-05-07')).toBeGreaterThan(-1);
    expect(plain.indexOf('overnight, 2024-05-07')).toBeLessThan(plain.indexOf('map, 2024-05-02'));
    mustHold(plain, 'href="./demo-0/sweep.html"');
  });

  it('groups what-ifs with their case, and offers sweeps to be laid side by side', () => {
    const plain = indexPage(syntheticIndex(), assets.script);
    const [, group = ''] = /<h2>Saltmarsh 125, draft A<\/h2>(.*?)<\/ol>/s.exec(plain) ?? [];
    mustHold(group, 'draft A · header 260 mm');
    expect(group.match(/<li>/g)).toHaveLength(2);
    expect(plain.match(/<input type="checkbox"/g)).toHaveLength(2);
    const one = indexPage({ ...syntheticIndex(), runs: syntheticIndex().runs.slice(0, 3) }, assets.script);
    mustNotHold(one, '<script');
  });

  it('lays two sweeps side by side speed by speed, with what the second has more', () => {
    const [a, b] = syntheticIndex().runs.filter((run) => run.sweep !== undefined) as BesideRun[];
    const first = {
      ...(a as BesideRun),
      sweep: { speeds: [9000, 9500], torque: [20, null], lead: [30, 20] },
    };
    const second = {
      ...(b as BesideRun),
      sweep: { speeds: [9000, 10_000], torque: [21.5, 22], lead: [26, 10] },
    };
    const text = besideView(first, second)
      .toString()
      .replaceAll(/<[^>]*>/g, ' ')
      .replaceAll(/\s+/g, ' ');
    expect(text).toContain('Second: Saltmarsh 125, draft A · header 260 mm (in demo-7)');
    expect(text).toMatch(/9 000 20\.0 21\.5 \+1\.5 30 26 −4 9 500 – – – 20 – – 10 000 – 22\.0 – – 10 –/);
  });
});
