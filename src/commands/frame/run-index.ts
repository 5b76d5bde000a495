/**
 * The index of a folder of runs. Each run folder gets a small `run.json` (`run-sweep.json` where the run of another
 * verb lies there already): what ran, when, the answer in one line, the outline and a curve. `index.html` in the folder
 * above lists them by their case, newest first, and is written anew by every run.
 *
 * The runs' results matter, the index does not: whatever goes wrong with it is a message, never the end of a run.
 * What is no run of ours or is broken is left out. No index is written over a file that is not one of ours, nor into
 * places where people keep other things: the root, the home and the temporary folder, a folder of program source.
 */

import { readdirSync, readFileSync, realpathSync, rmSync, statSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { basename, dirname, join, parse } from 'node:path';
import type { IndexedRun } from '../../../plots/pages/index-entry.ts';
import { indexPage } from '../../../plots/pages/index-page.ts';
import type { RunCard } from '../../../plots/pages/run-cards.ts';
import { clearParts } from '../../study/work/durable-file.ts';
import { jsonText } from './json.ts';
import { pageScript } from './page-assets.ts';
import { plainText } from './plain-text.ts';
import { type RunFolder, writeWhole } from './run-folder.ts';
import type { Terminal } from './terminal.ts';

const CARD = 'run.json';
const INDEX = 'index.html';
/** A mark in the page by which an index is known to be ours. */
const MARK = '<ol class="runs">';
/** In place of a page: the run is its files, and the link leads to the folder. */
export const HERE = './';
const PAGE = /^(?:[a-z-]+\.html|\.\/)$/;
/** No card of ours is larger [bytes]. */
const LARGEST = 1_000_000;

/** Leaves the card of a finished run in its folder and brings the index above it up to date. */
export function listRun(
  folder: RunFolder,
  page: string,
  card: RunCard,
  { terminal, program, now = new Date() }: { terminal: Terminal; program: string; now?: Date },
): void {
  try {
    const run = { schemaVersion: 1, program, page, when: localTime(now), ...card };
    folder.write(cardName(folder, card.kind), jsonText(run));
    writeIndex(folder.path, program);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    terminal.message(`The index of runs was not brought up to date: ${plainText(why)}`);
  }
}

/** `run.json`, unless that is the card of another verb's run, whose page lies there still: both are listed then. */
function cardName(folder: RunFolder, kind: string): string {
  const first = cardAt(folder.path, CARD);
  const own = `run-${kind}.json`;
  if (first !== null && first.kind !== kind) return own;
  rmSync(folder.file(own), { force: true });
  return CARD;
}

/** A card that can be read and whose page is there, or null. */
function cardAt(runFolder: string, file: string): IndexedRun | null {
  try {
    const path = join(runFolder, file);
    if (statSync(path).size > LARGEST) return null;
    const run = indexedRun(basename(runFolder), JSON.parse(readFileSync(path, 'utf8')));
    if (run === null) return null;
    const page = statSync(join(dirname(runFolder), run.href));
    return run.href.endsWith('/') || page.isFile() ? run : null;
  } catch {
    return null;
  }
}

/** Writes the index of the folder that holds a run folder. */
function writeIndex(runFolder: string, program: string): void {
  const place = dirname(realpathSync(runFolder));
  if (isOthers(place)) return;
  const path = join(place, INDEX);
  clearParts(place, INDEX);
  for (let again = 0; again < 3; again += 1) {
    const cards = cardsIn(place);
    const runs = cards.map(({ run }) => run);
    writeWhole(path, indexPage({ program, folder: basename(place), runs }, pageScript('index')));
    // Another run may have ended meanwhile and listed itself without this one, or this one without it.
    const now = cardsIn(place);
    if (sameStamps(now, cards)) return;
  }
}

function isOthers(place: string): boolean {
  if (place === parse(place).root) return true;
  for (const shared of [homedir(), tmpdir()]) {
    try {
      if (realpathSync(shared) === place) return true;
    } catch {}
  }
  const names = readdirSync(place);
  if (names.includes('package.json') || names.includes('.git')) return true;
  return names.includes(INDEX) && !readFileSync(join(place, INDEX), 'utf8').includes(MARK);
}

interface Card {
  readonly stamp: string;
  readonly run: IndexedRun;
}

const sameStamps = (a: readonly Card[], b: readonly Card[]): boolean =>
  a.length === b.length && a.every(({ stamp }, i) => stamp === b[i]?.stamp);

function cardsIn(place: string): readonly Card[] {
  return readdirSync(place, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap(({ name }) =>
      cardFiles(join(place, name)).flatMap((file) => {
        const run = cardAt(join(place, name), file);
        return run === null ? [] : [{ stamp: `${name} ${run.href} ${run.when}`, run }];
      }),
    );
}

function cardFiles(runFolder: string): readonly string[] {
  try {
    return readdirSync(runFolder).filter((name) => /^run(?:-[a-z]+)?\.json$/.test(name));
  } catch {
    return [];
  }
}

/** The card of a folder, or null if it is none. */
function indexedRun(folder: string, card: unknown): IndexedRun | null {
  if (!isRecord(card)) return null;
  const { title, kind, page, when, line, outlines, curves, sweep, of } = card;
  for (const text of [title, kind, page, when, line]) if (typeof text !== 'string') return null;
  if (!PAGE.test(page as string) || !isList(outlines) || !isList(curves)) return null;
  if (!outlines.every((outline) => isList(outline) && outline.every(isStretch))) return null;
  if (!curves.every(isCurve)) return null;
  if (sweep !== undefined && !areCurves(sweep)) return null;
  if (of !== undefined && typeof of !== 'string') return null;
  return { ...(card as unknown as IndexedRun), href: `${folder}/${page === HERE ? '' : page}` };
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);
const isNumber = (value: unknown): boolean => typeof value === 'number' && Number.isFinite(value);

function isStretch(value: unknown): boolean {
  if (!isRecord(value) || typeof value.name !== 'string' || typeof value.role !== 'string') return false;
  const { start, end, diameters } = value;
  return (
    isNumber(start) &&
    isNumber(end) &&
    isList(diameters) &&
    diameters.length === 2 &&
    diameters.every(isNumber)
  );
}

/** Curves that the page can draw. */
const CURVES: ReadonlySet<string> = new Set(['torque', 'power', 'draft', 'returning', 'outgoing']);

function isCurve(value: unknown): boolean {
  if (!isRecord(value) || !CURVES.has(String(value.kind))) return false;
  const { x, y } = value;
  return isList(x) && isList(y) && x.every(isNumber) && y.every((one) => one === null || isNumber(one));
}

/** Speeds, and torque and lead at each. */
function areCurves(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const { speeds, torque, lead } = value;
  if (!isList(speeds) || !speeds.every(isNumber)) return false;
  return [torque, lead].every(
    (one) => isList(one) && one.length === speeds.length && one.every((y) => y === null || isNumber(y)),
  );
}

/** The time on the clock of the wall, ISO 8601 without zone: sorts as text. */
function localTime(now: Date): string {
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 23);
}
