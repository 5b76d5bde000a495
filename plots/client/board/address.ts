/** The draft and its stages in the page's address, so that they can be bookmarked and sent. What comes in is read like any change. */

import type { Stage } from './draft-history.ts';

export interface Addressed {
  readonly set: readonly string[];
  readonly stages: readonly Stage[];
}

/** Longest address that is read [characters]. */
const LONGEST = 200_000;
/** How long after the last change the address follows [ms]. */
const SOON_MS = 400;

/** The page's address, which follows what stands on it: soon, for browsers refuse too many changes a minute. */
export class AddressBar {
  readonly #what: () => Addressed;
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(what: () => Addressed) {
    this.#what = what;
  }

  follow(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => history.replaceState(null, '', addressOf(this.#what())), SOON_MS);
  }

  /** What another address holds; null: it is this one, or none of ours. */
  other(): Addressed | null {
    return location.hash === addressOf(this.#what()) ? null : addressed(location.hash);
  }
}

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
