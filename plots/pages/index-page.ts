/**
 * The index of a folder of runs: grouped by case, the newest first, each run with its folder, outline and a curve. Any
 * two sweeps are laid side by side by its script; without it the list is whole.
 */

import { html, type Markup } from '../theme/markup.ts';
import type { BesideRun } from './beside.ts';
import { caseOf, type IndexedRun, indexEntry } from './index-entry.ts';
import { sheet } from './sheet.ts';

export type { IndexedRun } from './index-entry.ts';

export interface IndexPageResult {
  readonly program: string;
  readonly folder: string;
  readonly runs: readonly IndexedRun[];
}

/** What the page's script needs: the sweeps, in the order of their numbers. */
export interface IndexPageData {
  readonly runs: readonly BesideRun[];
}

const canLie = (run: IndexedRun): run is IndexedRun & BesideRun => run.sweep !== undefined;

const besideOf = ({ title, href, outlines, line, sweep }: IndexedRun & BesideRun): BesideRun => ({
  ...{ title, href, line, sweep },
  outlines: outlines.slice(0, 1),
});

export function indexPage(result: IndexPageResult, script: string): string {
  const runs = [...result.runs].sort((a, b) => (a.when < b.when ? 1 : a.when > b.when ? -1 : 0));
  const sweeps = runs.filter(canLie);
  const count = runs.length === 0 ? 'No runs yet' : runs.length === 1 ? '1 run' : `${runs.length} runs`;
  const groups = new Map<string, IndexedRun[]>();
  for (const run of runs) groups.set(caseOf(run), [...(groups.get(caseOf(run)) ?? []), run]);
  const listed = (name: string, members: readonly IndexedRun[]): Markup => {
    const entries = members.map((run) => indexEntry(run, canLie(run) ? sweeps.indexOf(run) : null));
    return html`${groups.size > 1 && html`<h2>${name}</h2>`}<ol class="runs">${entries}</ol>`;
  };
  const choosing =
    sweeps.length > 1 &&
    html`<p class="note lay" hidden>Tick two sweeps to lay them side by side.</p><section id="beside" aria-live="polite" hidden></section>`;
  return sheet({
    title: `Runs in ${result.folder}`,
    titleBlock: [
      ['Runs', result.folder],
      ['Listed', `${count}, newest first`],
      ['Program', result.program, 'minor'],
    ],
    body: html`<h1 class="alone">${count}${result.folder !== 'runs' && ` in ${result.folder}`}</h1>${choosing}${[...groups].map(([name, members]) => listed(name, members))}`,
    data: { runs: sweeps.map(besideOf) } satisfies IndexPageData,
    program: result.program,
    assets: sweeps.length > 1 ? { plotly: '', script } : null,
  });
}
