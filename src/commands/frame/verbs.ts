/** The words of help of every verb. */

import { verbFlags } from './flags.ts';
import { knownFlags } from './new-flags.ts';
import type { Verb } from './verb.ts';

export { reconcile } from './reconcile-verb.ts';

const DRAFT = 'cases/saltmarsh-125/draft-a.yaml';
const NOTHING_KEPT = 'Nothing was kept; run the command again to start over.';

export const fresh: Verb = {
  name: 'new',
  operands: '<folder>',
  summary: 'Write a case, an engine and a pipe to start from',
  description:
    'Of the sort of intake, bore, stroke, speed and what else is known: files that run at once, each key with how it ' +
    'is measured, with a pipe of usual proportions. What is not known is assumed and marked with that word. On a ' +
    'terminal it asks for what is missing. Never overwrites.',
  flags: knownFlags,
  without: {
    out: 'the folder is its operand',
    overwrite: 'it never replaces a file',
    cell: 'nothing is simulated, so there is no mesh',
    set: 'no case is read',
  },
  oneThread: true,
  examples: [
    'echocone new my-engine --intake reed --bore 54mm --stroke 54.5mm --rpm 10500',
    'echocone new fifty --intake disc --bore 40mm --stroke 39.7mm --rod 80mm --rpm 12500 --exhaust-duration 192deg',
  ],
  afterInterrupt: 'Run the command again; files that it wrote are in the folder.',
};

export const check: Verb = {
  name: 'check',
  operands: '<case>',
  summary: 'Read a case and print its geometry, without simulating',
  description:
    'Port events and durations, time-areas, the sections of the pipe, the handbook length, and warnings ' +
    'where common practice would differ. Writes no file.',
  flags: [],
  without: {
    out: 'it writes no file',
    overwrite: 'it writes no file',
    cell: 'nothing is simulated, so there is no mesh',
  },
  oneThread: true,
  examples: [
    `echocone check ${DRAFT}`,
    `echocone check ${DRAFT} --set "engine.exhaust.windows.0.width=38 mm"`,
  ],
  afterInterrupt: NOTHING_KEPT,
};

export const keys: Verb = {
  name: 'keys',
  operands: '[kind]',
  summary: 'Every key of a kind of file: unit, limits, default, example',
  description:
    'Of engine, pipe, case, study, pulse and measured files, or of one branch such as engine.passage. Written from the code that ' +
    'reads the files. Writes no file.',
  flags: [],
  without: {
    out: 'it writes no file',
    overwrite: 'it writes no file',
    cell: 'nothing is simulated, so there is no mesh',
    set: 'no case is read',
  },
  oneThread: true,
  examples: ['echocone keys engine.passage', 'echocone keys pulse --json'],
  afterInterrupt: NOTHING_KEPT,
};

export const pulse: Verb = {
  name: 'pulse',
  operands: '<file>',
  summary: 'Let gas go in a duct or a vessel and watch it at probes',
  description: 'One shot, no engine. Writes probes.csv, profiles.csv, pulse.json and pulse.html.',
  flags: [],
  oneThread: true,
  examples: [
    'echocone pulse cases/pulse/shock-tube.yaml',
    'echocone pulse cases/pulse/cone.yaml --cell 1mm --out runs/cone',
  ],
  afterInterrupt: NOTHING_KEPT,
};

export const sweep: Verb = {
  name: 'sweep',
  operands: '<case>',
  summary: 'Run the engine over a range of speeds',
  description:
    'Where the reflected wave lands against exhaust closing at every speed, with torque and power. ' +
    'Finished speeds are kept until all are done: broken off, the same command with the same --out goes on. With --bands ' +
    'also how sure that is: members with other values of what was not measured, on cells of 10 mm unless --cell or the ' +
    'case says otherwise. Writes sweep.csv, sweep.json, sweep.html, rounded for a spreadsheet sweep-short.csv, and with ' +
    '--bands bands.csv and members.csv.',
  flags: [
    verbFlags.speeds,
    verbFlags.noAdvice,
    verbFlags.moves,
    verbFlags.bands,
    verbFlags.members,
    verbFlags.overMembers,
    verbFlags.cancel,
  ],
  examples: [
    `echocone sweep ${DRAFT}`,
    `echocone sweep ${DRAFT} --rpm 9000:12000:250 --cell 8mm --out runs/draft-a`,
  ],
  afterInterrupt: 'Finished speeds are kept; the same command with the same --out goes on from there.',
};

export const board: Verb = {
  name: 'board',
  operands: '<case>',
  summary: 'A live page on which the pipe is moved by hand',
  description:
    'The solver runs in the page: joints, roofs, walls and ignition are moved and the answer follows, first on coarse ' +
    'cells, then on those of the case. One file, opened from disk, that asks nothing of a network. Simulates nothing ' +
    'itself. Writes board.html.',
  flags: [verbFlags.speeds],
  oneThread: true,
  examples: [`echocone board ${DRAFT}`, `echocone board ${DRAFT} --cell 7mm --out runs/board`],
  afterInterrupt: NOTHING_KEPT,
};

export const map: Verb = {
  name: 'map',
  operands: '<case>',
  summary: 'Plug-back timing over speed and exhaust duration',
  description:
    'Every speed at each of several exhaust durations (180 to 206 deg in steps of 2): all exhaust roofs move ' +
    "together, floors, head and pipe stay. The case's cells, and every second of its speeds if it has many. " +
    'Finished points are kept in a journal: the same command with the same --out goes on where it ' +
    "stopped; with --overwrite another study's journal is set aside. Writes map.csv, map.json and map.html.",
  flags: [verbFlags.speeds, verbFlags.durations, verbFlags.over, verbFlags.cancel],
  long: true,
  examples: [
    `echocone map ${DRAFT}`,
    `echocone map ${DRAFT} --rpm 8000:12000:500 --duration 186:202:4 --cell 10mm`,
  ],
  afterInterrupt: 'Finished points are kept; the same command with the same --out goes on from there.',
};

export const compare: Verb = {
  name: 'compare',
  operands: '<drafts...>',
  summary: 'Sweep several drafts and put them side by side',
  description:
    'Two to eight drafts, measured against the first: best torque and power, width of the band, mean torque over a ' +
    'stated one, lead at the target speed. A draft is a case, or a finished sweep: its run folder or its sweep.json. ' +
    'With --bands the same members of what was not measured serve every draft, and it is said in how many of them one ' +
    'beats the other. Finished speeds are kept in a journal until all are done. Writes compare.csv, compare.json, ' +
    'compare.html and, with --bands, bands.csv and members.csv.',
  flags: [
    verbFlags.speeds,
    verbFlags.band,
    verbFlags.against,
    verbFlags.bands,
    verbFlags.members,
    verbFlags.overMembers,
    verbFlags.cancel,
  ],
  examples: [
    'echocone compare cases/saltmarsh-125/draft-*.yaml --rpm 8000:12000:250 --out runs/drafts',
    `echocone compare ${DRAFT} --set "pipe.sections.header.length=260 mm" --against base`,
  ],
  afterInterrupt: 'Finished speeds are kept; the same command with the same --out goes on from there.',
};

export const overnight: Verb = {
  name: 'overnight',
  operands: '<study>',
  summary: 'Run many drafts, ranked; may be stopped and gone on with',
  description:
    'A study file names a case, what varies and the score. Every finished draft is kept in a journal: the same ' +
    'command with the same --out goes on where it stopped. The journal of another study is never replaced, not ' +
    'with --overwrite either: name another folder or move it away. Writes journal.jsonl, ranking.csv and ' +
    'overnight.html. With --over the drafts go to whoever runs echocone lend with the same address.',
  flags: [verbFlags.over, verbFlags.cancel],
  long: true,
  examples: [
    'echocone overnight cases/studies/baffle-and-stinger.yaml --out runs/baffle',
    'echocone overnight cases/studies/baffle-and-stinger.yaml --threads 2 --json',
  ],
  afterInterrupt: 'Finished drafts are kept; the same command with the same --out goes on from there.',
};

export const aim: Verb = {
  name: 'aim',
  operands: '<case>',
  summary: 'Find section lengths for a target speed',
  description:
    'From the least change to the most: the header trimmed, header and baffle, then all lengths and bores, each for the ' +
    'best mean torque about the target that common practice can build. The search runs on cells of 20 mm, what is ' +
    'offered on 10 mm unless --cell or the case says otherwise. Finished runs are kept in a journal; that of another ' +
    'aim is never replaced, not with --overwrite either: name another folder or move it away. Writes aim.json, ' +
    'aim.html and a pipe file for each step.',
  flags: [
    verbFlags.target,
    verbFlags.from,
    verbFlags.vary,
    verbFlags.limits,
    verbFlags.noRules,
    verbFlags.mostDrafts,
  ],
  long: true,
  examples: [
    'echocone aim cases/saltmarsh-125/draft-c.yaml --rpm 11000',
    'echocone aim cases/saltmarsh-125/draft-c.yaml --vary header.length --vary belly.length --out runs/aim',
  ],
  afterInterrupt: 'Finished evaluations are kept; the same command with the same --out goes on from there.',
};

export const unroll: Verb = {
  name: 'unroll',
  operands: '<case>',
  summary: 'Flat patterns of the pipe for the bench',
  description:
    'A case or a pipe file. A pattern in millimetres for each cone, cylinder and mitred segment of its bends, laid out ' +
    'on the middle of the sheet; diameters of the file are inside. Writes an SVG and a DXF for each, and for each sheet ' +
    'they are nested on, pages to print on A4 and A3, drawing.svg of the whole pipe, cut-list.csv and unroll.html.',
  flags: [
    verbFlags.thickness,
    verbFlags.seam,
    verbFlags.joint,
    verbFlags.rootGap,
    verbFlags.shrinkage,
    verbFlags.sheet,
    verbFlags.material,
    verbFlags.hydroform,
  ],
  without: { cell: 'nothing is simulated, so there is no mesh' },
  oneThread: true,
  examples: [
    `echocone unroll ${DRAFT}`,
    'echocone unroll cases/saltmarsh-125/bent/pipe-a-bent.yaml --thickness 1mm --seam 6mm --out runs/patterns',
  ],
  afterInterrupt: 'Patterns finished so far are in the folder; run the command again with --overwrite.',
};

export const verify: Verb = {
  name: 'verify',
  operands: '',
  summary: 'Solve problems with known answers and show the errors',
  description:
    'Exact solutions: error, observed order of convergence, balance of mass and energy. Writes verify.json and ' +
    'verify.html.',
  flags: [],
  without: {
    set: 'its problems are fixed and read no case',
    cell: 'each problem has meshes of its own, from coarse to fine',
  },
  examples: ['echocone verify', 'echocone verify --json --out runs/verify'],
  afterInterrupt: NOTHING_KEPT,
};

export const lend: Verb = {
  name: 'lend',
  operands: '',
  summary: 'Lend this machine to studies of others, over a queue',
  description:
    'Takes pieces that overnight, map, bands or reconcile put on a server with --over, computes them and hands the results back, until ' +
    'it is stopped. What comes is checked like a case file; nothing of it is run, and no file is read for it. Ctrl-C ' +
    'after what is under way, a second one at once: others take over what was not finished. Use a server only with a ' +
    'password, and with TLS beyond a network of your own.',
  flags: [verbFlags.server],
  without: {
    out: 'it writes no file',
    overwrite: 'it writes no file',
    cell: 'each study brings its own',
    set: 'each study brings its own cases',
    json: 'it has no result of its own',
  },
  finishesFirst: true,
  long: true,
  examples: [
    'echocone lend --over redis://workshop:6379',
    'echocone lend --over rediss://club.example:6380 --threads 4',
  ],
  afterInterrupt: 'What was under way was finished and handed over; others take the rest.',
};
