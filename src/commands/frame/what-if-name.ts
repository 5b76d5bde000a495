/**
 * The name of a what-if: that of its base and what was put in place of the file's values, "draft A · header 260 mm". Names
 * of groups that say nothing beside the value are left out; the whole list stands as `changed` in the documents.
 */

import { plainText } from './plain-text.ts';

const PLAIN = new Set(['engine', 'pipe', 'run', 'sections', 'windows', 'length', 'given']);

/** The base's name where nothing was changed. */
export function whatIfName(base: string, set: readonly string[]): string {
  return set.length === 0 ? base : `${base} · ${set.map(changeName).join(', ')}`;
}

function changeName(change: string): string {
  const [, path = '', action = '', value = ''] =
    /^([^=]*?)\s*([+-]?)=\s*(.*)$/s.exec(plainText(change)) ?? [];
  const steps = path.split(/[.[\]"']/).flatMap((step) => (step.trim() === '' ? [] : [step.trim()]));
  const telling = steps.filter((step) => !PLAIN.has(step));
  const subject = (telling.length > 0 ? telling : steps).join(' ');
  return `${subject} ${action}${value}`;
}
