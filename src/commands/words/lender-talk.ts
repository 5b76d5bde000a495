/** What the terminal is told of lenders. */

import type { LenderTalk } from '../../study/over/hired.ts';
import { plainText } from '../frame/plain-text.ts';
import type { Terminal } from '../frame/terminal.ts';
import { typed } from '../frame/typed.ts';

export const lenderTalk = (terminal: Terminal): LenderTalk => ({
  message: (text) => terminal.message(plainText(text)),
  lenders: (address) => `Lenders: ${typed()} lend --over ${address}, on any machine.`,
});
