/** How safe an aimed pipe is, in words, for the page and for the terminal. */

import type { Cutting, Loss, Safety } from '../../src/findings/answers/aim-safety.ts';
import { newtonMetres, rpm } from '../theme/numbers.ts';
import { bandEdges } from './band-words.ts';

export interface SafetyText {
  readonly how: string;
  /** Empty: nothing needs to be done. */
  readonly advice: string;
}

/** Torque that is not worth naming [Nm]. */
const NOTHING = 0.05;

const said = ({ name, step, way }: Loss): string =>
  name === 'wall' ? `a wall ${step} ${way === 'more' ? 'hotter' : 'cooler'}` : `${step} ${way} ${name}`;

const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

export function safetyText(safety: Safety | null): SafetyText {
  if (safety === null) return { how: 'Not known: the target was not computed.', advice: '' };
  const { held, beyond, cutting, aimAgain, climbing, saferStart } = safety;
  const gone = beyond === null ? '' : `; at ${rpm(beyond.speedRpm)} ${newtonMetres(beyond.lost)} are gone`;
  const speeds = `It keeps nine tenths of its torque ${bandEdges(held)}${gone}.`;
  const advice = [
    cutting === null ? '' : cuttingText(cutting),
    aimAgain === null ? '' : `To keep clear of the edge in speed aim again, at ${rpm(aimAgain)}.`,
    climbing === null
      ? ''
      : `${capital(said(climbing.loss))} would gain ${newtonMetres(climbing.gain)}: the search has not come to the top; allow it more drafts.`,
    saferStart === null
      ? ''
      : `The handbook’s pipe gives ${newtonMetres(saferStart.torque)} there and keeps nine tenths of it ${bandEdges(saferStart.held)}: the safer one.`,
  ];
  return {
    how: [lossText(safety), speeds].filter((text) => text !== '').join(' '),
    advice: advice.filter((text) => text !== '').join(' '),
  };
}

function lossText({ edges, worst }: Safety): string {
  if (edges.length > 0)
    return `${capital(listed(edges.map(said)))} loses ${edges.length > 1 ? 'up to ' : ''}${newtonMetres(edges[0]?.lost)}.`;
  if (worst === null) return '';
  return worst.lost > NOTHING
    ? `Nothing tried on it loses more than ${newtonMetres(worst.lost)}: ${said(worst)}.`
    : 'Nothing tried on it loses torque.';
}

function cuttingText(cutting: Cutting): string {
  if (cutting.kind === 'hold')
    return `Hold its lengths to a millimetre or two: ${cutting.edge === 'above' ? 'longer brings the edge above down' : 'shorter brings the edge below up'}.`;
  const { name, step, otherWay } = cutting.loss;
  if (cutting.kind === 'both')
    return `Both sides of ${name} fall off: hold its length to a millimetre or two, or take another pipe.`;
  const cost = otherWay > NOTHING ? `costs ${newtonMetres(otherWay)}` : 'costs nothing';
  return cutting.side === 'short'
    ? `Build ${name} ${step} short, which ${cost}; a spacer can lengthen it on the bench.`
    : `Build ${name} ${step} long, which ${cost}; it can be cut back on the bench.`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
