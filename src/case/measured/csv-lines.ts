/**
 * The lines of a table as spreadsheets export it, every field with its place in the text. Fields are parted by the comma, the
 * semicolon or the tab that its lines have most alike; a field in quotation marks may hold any of them, and two quotation
 * marks for one. Written here and not taken from a library, because each field has to know where it stands, for the caret
 * under it.
 */

import type { Place, Source } from '../text/source.ts';

export interface Field {
  readonly text: string;
  readonly place: Place;
}

export interface Line {
  readonly number: number;
  readonly fields: readonly Field[];
  readonly place: Place;
}

const MARKS = [';', '\t', ','] as const;
type Mark = (typeof MARKS)[number];

/** Lines that tell which mark parts the fields. */
const LOOKED_AT = 40;

/** Lines of a table; blank ones and remarks behind a "#" are left out. */
export function linesOf(source: Source): { readonly lines: readonly Line[]; readonly mark: Mark } {
  const whole = rawLines(source);
  const filled = whole.filter(
    ({ text }) => text.replaceAll(/[;,\t"\s]/g, '') !== '' && !/^\s*#(?!\s*[;,\t])/.test(text),
  );
  const mark = markOf(filled.slice(0, LOOKED_AT).map(({ text }) => text));
  const lines = filled.map(({ text, start, number }) => ({
    number,
    fields: fieldsOf(source, text, start, mark),
    place: { source, start, end: start + text.length },
  }));
  return { lines, mark };
}

interface RawLine {
  readonly text: string;
  readonly start: number;
  readonly number: number;
}

function rawLines({ text }: Source): RawLine[] {
  const lines: RawLine[] = [];
  let start = text.startsWith('\uFEFF') ? 1 : 0;
  for (const match of text.matchAll(/\r\n|\n|\r|$/g)) {
    if (match.index < start) continue;
    lines.push({ text: text.slice(start, match.index), start, number: lines.length + 1 });
    start = match.index + match[0].length;
    if (match[0] === '') break;
  }
  return lines;
}

/** The mark that most lines have, and as often as one another. */
function markOf(lines: readonly string[]): Mark {
  const score = (mark: Mark): number => {
    const counts = lines.map((line) => outsideQuotes(line).split(mark).length - 1);
    const usual = mostFrequent(counts.filter((count) => count > 0));
    return usual === 0 ? 0 : counts.filter((count) => count === usual).length + usual / 1000;
  };
  // The first of equals: a decimal comma stands in as many lines as the semicolon that parts the fields.
  return MARKS.reduce((best, mark) => (score(mark) > Math.floor(score(best)) ? mark : best));
}

const outsideQuotes = (line: string): string => line.replaceAll(/"(?:[^"]|"")*"/g, '');

function mostFrequent(counts: readonly number[]): number {
  const often = new Map<number, number>();
  for (const count of counts) often.set(count, (often.get(count) ?? 0) + 1);
  let best = 0;
  for (const [count, times] of often) if (times > (often.get(best) ?? 0)) best = count;
  return best;
}

function fieldsOf(source: Source, text: string, start: number, mark: Mark): Field[] {
  const fields: Field[] = [];
  let from = 0;
  let quoted = false;
  for (let at = 0; at <= text.length; at++) {
    const sign = text[at];
    if (sign === '"') quoted = !quoted;
    if (at < text.length && (quoted || sign !== mark)) continue;
    const raw = text.slice(from, at);
    const trimmed = raw.trim();
    const lead = raw.length - raw.trimStart().length;
    const place = {
      source,
      start: start + from + lead,
      end: start + from + lead + Math.max(1, trimmed.length),
    };
    const plain = /^".*"$/s.test(trimmed) ? trimmed.slice(1, -1).replaceAll('""', '"').trim() : trimmed;
    fields.push({ text: plain, place });
    from = at + 1;
  }
  return fields;
}
