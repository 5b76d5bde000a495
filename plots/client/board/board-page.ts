/** The board's page, and its workers: the same script does either, for a page from disk has no other file to give them. */

import { startBoard } from './board.ts';
import { work } from './work.ts';

if (typeof document === 'undefined') work(globalThis as unknown as Parameters<typeof work>[0]);
else startBoard(document.currentScript?.textContent ?? '');
