/** Names by which `--set` and the tables go: stated twice, they would name neither. */

import { quoted } from '../text/printable.ts';
import type { Judge } from './schema.ts';

/** Whether each name of a list is stated once; `where` leads to the list, null is no name. */
export function namesDiffer(
  items: readonly { readonly name: string | null }[],
  judge: Judge,
  where: readonly (string | number)[],
  called: string,
): boolean {
  let sound = true;
  for (const [index, { name }] of items.entries()) {
    if (name === null || name === '') continue;
    const first = items.findIndex((other) => other.name === name);
    if (first === index) continue;
    sound = false;
    judge.refuse(
      [...where, index, 'name'],
      `the name ${quoted(name)} is taken by another ${called}, at ${judge.whereIs([...where, first, 'name'])}`,
      'give each a name of its own',
    );
  }
  return sound;
}
