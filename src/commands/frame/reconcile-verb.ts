/** The words of help of `reconcile`. */

import { verbFlags } from './flags.ts';
import type { Verb } from './verb.ts';

export const reconcile: Verb = {
  name: 'reconcile',
  operands: '<case> <data...>',
  summary: 'Find which inputs explain what was measured',
  description:
    'Files of kind measured: each names a dynamometer curve, pressure traces, temperatures. Members drawn over the ranges of ' +
    'what the case assumes are moved until they show what was measured; what the data do not tell stays as it was, and ' +
    'what no inputs explain is said. Some 300 sweeps over the measured speeds, on cells of 10 mm unless --cell or the ' +
    'case says otherwise. Finished members are kept in a journal until all are done. Writes reconciled.json, ' +
    'reconciled.html, engine-reconciled.yaml and members.csv.',
  flags: [verbFlags.count, verbFlags.over, verbFlags.cancel],
  long: true,
  examples: [
    'echocone reconcile cases/saltmarsh-125/draft-a.yaml cases/saltmarsh-125/measured/dyno.yaml',
    'echocone reconcile cases/saltmarsh-125/draft-a.yaml cases/saltmarsh-125/measured/dyno.yaml --cell 20mm --count 32 --out runs/reconciled',
  ],
  afterInterrupt: 'Finished members are kept; the same command with the same --out goes on from there.',
};
