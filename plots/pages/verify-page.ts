/** The verify page: every check with its errors, its order and its bound, and computed over exact solutions. */

import type { Overlay } from '../figures/exact-overlay.ts';
import { html, type Markup } from '../theme/markup.ts';
import { exponential, fixed } from '../theme/numbers.ts';
import { type Cell, table } from './parts.ts';
import { type Assets, place, sheet } from './sheet.ts';

export interface VerifyCheck {
  readonly name: string;
  /** identity, exact solution, observed order, conservation, regression. */
  readonly ring: string;
  /** Book or paper, or `value from memory`, or `common practice, no source`. */
  readonly source: string;
  /** What the error is of, with its unit. */
  readonly quantity: string;
  /** Error at n, 2n and 4n cells; one entry where refinement means nothing. */
  readonly errors: readonly number[];
  readonly cells: readonly number[];
  readonly order: number | null;
  /** The bound as it is to be read. */
  readonly bound: string;
  readonly pass: boolean;
  readonly note?: string;
}

export interface VerifyPageResult {
  readonly program: string;
  readonly checks: readonly VerifyCheck[];
  readonly overlays: readonly (Overlay & {
    readonly title: string;
    readonly read: string;
  })[];
  readonly seconds: number;
}

export interface VerifyPageData {
  readonly overlays: readonly Overlay[];
}

const MOST = 800;

function thinned(curve: { readonly x: readonly number[]; readonly y: readonly number[] }) {
  const stride = Math.max(1, Math.ceil(curve.x.length / MOST));
  const keep = (_: number, i: number): boolean => i % stride === 0 || i === curve.x.length - 1;
  const rounded = (value: number): number => Number(value.toPrecision(7));
  return {
    x: curve.x.filter(keep).map(rounded),
    y: curve.y.filter(keep).map(rounded),
  };
}

/** Two digits, as a power of ten only where plain ones would not be read. */
function errorText(value: number | undefined): string {
  if (value === undefined) return '';
  if (!(Math.abs(value) >= 1e-3 && Math.abs(value) < 1000)) return value === 0 ? '0' : exponential(value);
  return fixed(value, Math.max(0, 1 - Math.floor(Math.log10(Math.abs(value)))));
}

/** Powers of ten in a text as the table has them. */
const withPowers = (text: string): string =>
  text.replace(/\b(?:\d+(?:\.\d+)?e[+-]?\d+|0\.000\d+)\b/g, (found) =>
    exponential(Number(found)).replace('.0·', '·'),
  );

/** What kind of check it is, for who reads the table. */
const rings: Readonly<Record<string, string>> = {
  identity: 'follows from the equations or a table, whatever the mesh',
  'exact solution': 'against a solution known in closed form or from a table',
  'observed order': 'the error must fall as the cells are halved, at the stated order',
  conservation: 'nothing may be lost or made of mass and energy',
  regression: 'must stay as it was found once',
};

function checksTable(checks: readonly VerifyCheck[]): Markup {
  const error = (check: VerifyCheck, i: number): Cell => ({
    text: errorText(check.errors[i]),
    number: true,
  });
  return table(
    'Error at n, 2n and 4n cells',
    [
      { name: 'met' },
      { name: 'check' },
      { name: 'kind' },
      { name: 'error of' },
      { name: 'n', number: true },
      { name: 'at n', number: true },
      { name: 'at 2n', number: true },
      { name: 'at 4n', number: true },
      { name: 'order', number: true },
      { name: 'bound' },
      { name: 'source' },
    ],
    checks.map((check) => ({
      cells: [
        {
          text: check.pass ? '✓' : '✗ missed',
          kind: check.pass ? 'good mark' : 'bad mark',
        },
        {
          text: withPowers(check.note === undefined ? check.name : `${check.name}. ${check.note}`),
        },
        { text: check.ring },
        { text: check.quantity },
        {
          text: check.cells[0] === undefined ? '' : String(check.cells[0]),
          number: true,
        },
        error(check, 0),
        error(check, 1),
        error(check, 2),
        {
          text: check.order === null ? '' : fixed(check.order, 2),
          number: true,
        },
        { text: withPowers(check.bound) },
        { text: check.source },
      ],
    })),
  );
}

const MEANING =
  'What it means for a pipe: waves run, steepen, reflect at cones, steps and ends, and lose strength in this program as theory and published tables say, to within the errors below. Port coefficients, scavenging and wall temperatures are not proved by it; they are inputs to measure.';

const MISTRUST =
  'What it means for a pipe: this build does not compute what theory says. Do not cut by its numbers before the missed checks are understood.';

export function verifyPage(result: VerifyPageResult, assets: Assets): string {
  const missed = result.checks.filter((check) => !check.pass);
  const headline =
    missed.length === 0
      ? `All ${result.checks.length} checks are within their bounds.`
      : `${missed.length} of ${result.checks.length} checks missed ${missed.length === 1 ? 'its bound' : 'their bounds'}: ${missed.map((check) => check.name).join(', ')}.`;
  const places = result.overlays.map((overlay, i) =>
    place(
      `overlay-${i}`,
      overlay.title,
      overlay.read,
      'Computed beside exact by more than the line’s breadth: look at the check of the same name above.',
      `${overlay.title}: computed over exact.`,
    ),
  );
  const data: VerifyPageData = {
    overlays: result.overlays.map(({ xName, yName, computed, exact }) => ({
      xName,
      yName,
      computed: thinned(computed),
      exact: thinned(exact),
    })),
  };
  const kinds = [...new Set(result.checks.map(({ ring }) => ring))].flatMap((ring, i) => {
    const said = rings[ring];
    return said === undefined ? [] : [html`${i > 0 && '; '}<b>${ring}</b>: ${said}`];
  });
  return sheet({
    title: 'Verification',
    titleBlock: [
      ['Verification', 'The solver against exact answers and published tables'],
      ['Checks', `${result.checks.length - missed.length} of ${result.checks.length} within bounds`],
      ['Took', `${fixed(result.seconds, 0)} s`],
      ['Program', result.program, 'minor'],
    ],
    body: html`<section><h1 class="alone">${headline}</h1><p>${missed.length === 0 ? MEANING : MISTRUST}</p>${checksTable(result.checks)}<p class="small">Kinds: ${kinds}. The order is the power of the cell length with which the error falls: 1 halves it as the cells are halved, 2 quarters it. Where the wave has a jump or a corner, or the error is small on every mesh, it is low, even 0; it is judged only where the bound names it. A bell is a smooth single wave, one hump high; a check named mesh runs the textbook’s mesh method, one named volumes the second opinion, finite volumes of another family.</p></section><section><h2>Computed over exact</h2><div class="pair">${places}</div></section>`,
    data,
    program: result.program,
    assets,
  });
}
