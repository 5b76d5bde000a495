/**
 * What the YAML library objects to, in the words of whoever writes a case file, with an example of a right line. The
 * library's own sentences are for programmers ("implicit map keys") and are not shown.
 */

import type { YAMLError } from 'yaml';

interface Words {
  readonly message: string;
  readonly hint: string;
}

const LINE = 'a line is like  length: 90 mm  with a blank behind the colon';
const BRACKETS = 'like  { name: header, length: 90 mm }  or  [30 mm, 34 mm]';
const QUOTES = 'a text with such a sign goes into quotation marks, like  name: "pipe: B"';

const NO_COLON: Words = { message: 'no key with a colon and a value behind it', hint: LINE };
const BRACKET: Words = { message: 'a bracket is not closed before this', hint: BRACKETS };

const BY_CODE: Readonly<Record<string, Words>> = {
  MULTILINE_IMPLICIT_KEY: NO_COLON,
  KEY_OVER_1024_CHARS: NO_COLON,
  BLOCK_AS_IMPLICIT_KEY: {
    message: 'a second colon in what is one value, or lines under it that begin too far right',
    hint: `one key a line, those of a group in one column; ${QUOTES}`,
  },
  BAD_INDENT: {
    message: 'the line begins in another column than those it belongs with',
    hint: 'keys of one group begin in one column, what belongs to a key two blanks further right',
  },
  BAD_SCALAR_START: { message: 'a value cannot begin with this sign', hint: QUOTES },
  BAD_DQ_ESCAPE: {
    message: 'a backslash in quotation marks means something else',
    hint: "single quotation marks leave it alone, like  name: 'a\\b'",
  },
  TAB_AS_INDENT: { message: 'a tab where the line begins', hint: 'indent with spaces' },
  MULTIPLE_DOCS: {
    message: 'a second document begins here',
    hint: 'one case a file: remove the line "---" and what follows',
  },
  BLOCK_IN_FLOW: { message: 'a line of its own inside brackets', hint: BRACKETS },
  TAG_RESOLVE_FAILED: { message: 'a word with "!" before it means nothing here', hint: LINE },
  BAD_DIRECTIVE: { message: 'a line that begins with "%" means nothing here', hint: LINE },
};

const REST: Words = { message: 'something stands here that does not belong', hint: LINE };

/** A fault of the library in our words. */
export function yamlWords({ code, message }: Pick<YAMLError, 'code' | 'message'>): Words {
  if (/call stack/.test(message)) return { message: 'nested too deeply', hint: '' };
  if (/^Flow|end with a [}\]]|expected flow/i.test(message)) return BRACKET;
  if (/closing .*quote/i.test(message))
    return { message: 'a text in quotation marks does not end', hint: 'like  name: "my pipe"' };
  if (/Sequence item without/.test(message)) return BY_CODE.BAD_INDENT as Words;
  if (/map keys|map values/.test(message)) return NO_COLON;
  return BY_CODE[code] ?? REST;
}
