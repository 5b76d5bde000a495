/**
 * A table's file as text: UTF-8, with or without its mark, UTF-16 as some spreadsheets write it, else the Western European
 * code page that older ones use.
 */

import { dirname } from 'node:path';
import { readPlainFile } from '../text/document.ts';
import { printable } from '../text/printable.ts';
import type { Source } from '../text/source.ts';

/** Largest table that is read [bytes]: a pressure trace of some hundred turns. */
const LARGEST = 20_000_000;

/** @throws FileProblem */
export function openTable(file: string): Source {
  const bytes = readPlainFile(file, LARGEST, 'table');
  const text = decoded(bytes);
  return { name: printable(file), folder: dirname(file), text };
}

function decoded(bytes: Buffer): string {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}
