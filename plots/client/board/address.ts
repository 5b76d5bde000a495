/** The draft and its stages in the page's address, so that they can be bookmarked and sent. What comes in is read like any change. */

import type { Stage } from './draft-history.ts';

export interface Addressed {
  readonly set: readonly string[];
  readonly stages: readonly Stage[];
}

/** Longest address that is read [characters]. */
const LONGEST = 200_000;

export const addressOf = ({ set, stages }: Addressed): string =>
  `#${encodeURIComponent(JSON.stringify([set, ...stages.map(({ name, set: kept }) => [name, kept])]))}`;

/** What an address holds; null where it is none of ours. */
export function addressed(hash: string): Addressed | null {
  if (hash.length < 2 || hash.length > LONGEST) return null;
  try {
    const data: unknown = JSON.parse(decodeURIComponent(hash.slice(1)));
    if (!Array.isArray(data)) return null;
    const [set, ...stages] = data as readonly unknown[];
    const kept = stages.flatMap((stage): Stage[] => {
      if (!Array.isArray(stage)) return [];
      const [name, changes] = stage as readonly unknown[];
      return typeof name === 'string' && isTexts(changes) ? [{ name: name.slice(0, 80), set: changes }] : [];
    });
    return isTexts(set) ? { set, stages: kept } : null;
  } catch {
    return null;
  }
}

const isTexts = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((one) => typeof one === 'string');
