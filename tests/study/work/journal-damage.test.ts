/**
 * Ring: identity. Damage to a journal costs work and nothing else: whatever is done to its bytes, what it gives back is
 * what was written, or it is refused in words. Random damages by fast-check, which prints the seed of a failure.
 */

import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { JournalError, openJournal } from '../../../src/study/work/journal.ts';
import { type Damage, damaged, damages } from './journal-damages.mjs';

const path = join(mkdtempSync(join(tmpdir(), 'echocone-damage-')), 'journal.jsonl');
const of = { kind: 'overnight', name: 'baffle', program: 'echocone 1', what: [1, 2] };
const drafts = Array.from({ length: 12 }, (_, k) => `full ${k + 1}`);
const resultOf = (draft: string) => ({
  ok: true,
  rows: [{ torque_nm: 17.25 / draft.length, settled: draft !== 'full 3' }],
});

function whole(): Buffer {
  writeFileSync(path, '');
  const journal = openJournal<unknown>(path, of);
  for (const draft of drafts) journal.append(draft, resultOf(draft));
  journal.close();
  return readFileSync(path);
}

test('200 random damages: what is given back is what was written', () => {
  const bytes = whole();
  let refused = 0;
  let dropped = 0;
  const property = (damage: Damage): void => {
    writeFileSync(path, damaged(bytes, damage));
    const found = new Map<string, unknown>();
    try {
      const journal = openJournal<unknown>(path, of, (draft, result) => void found.set(draft, result));
      for (const [draft, result] of found) expect(result, draft).toEqual(resultOf(draft));
      if (found.size < drafts.length)
        expect(journal.dropped === '' ? readFileSync(path).length : 0).toBeLessThan(bytes.length);
      if (journal.dropped !== '') dropped += 1;
      for (const draft of drafts) journal.append(draft, resultOf(draft));
      journal.close();
    } catch (error) {
      expect(error).toBeInstanceOf(JournalError);
      refused += 1;
      return;
    }
    const again = openJournal<unknown>(path, of);
    expect([again.dropped, again.count]).toEqual(['', drafts.length]);
    again.close();
  };
  fc.assert(fc.property(damages, property), { numRuns: 200 });
  // Damage that spares a line is gone on with; only a file of which nothing is left is refused.
  expect(dropped).toBeGreaterThan(100);
  expect(refused).toBeLessThan(60);
}, 60_000);
