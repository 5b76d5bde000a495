/**
 * Rules about the windows in the bore: how wide, how far apart, how long open.
 *
 * The ring bulges into a wide window and catches its edge; a rounded roof and generous corners push it back gently, a
 * small bore's stiffer ring stands a larger share. The width rule puts that into numbers of its own: 70 % of bore at
 * 54 mm, 0.2 points less for each mm of bore more (4 points at most), and up to 4 points either way for the share of the
 * roof that arch and corners round off.
 */
import type { Engine } from '../../model/engine.ts';
import { meanPistonSpeed } from '../crank.ts';
import { engineEvents } from '../events.ts';
import { blowdownAngleArea } from '../time-area.ts';
import { usualExhaustDuration } from '../usual-ports.ts';
import type { WindowShape } from '../window.ts';
import type { RuleFinding, RuleInput } from './rule.ts';
import { clamp, finding, mm, NO_SOURCE } from './rule.ts';

/** Usual greatest width of one exhaust window over the bore [%]. */
export function usualWidthPercent(bore: number, shape: WindowShape): number {
  const arch =
    shape.archRadius === Infinity
      ? 0
      : shape.archRadius - Math.sqrt(Math.max(0, shape.archRadius ** 2 - (shape.arcWidth / 2) ** 2));
  const roundness = clamp((shape.cornerTop + arch) / (shape.arcWidth / 2), 0, 1);
  return 70 - clamp(0.2 * (bore * 1000 - 54), -4, 4) + 8 * (roundness - 0.5);
}

export function widestWindowRule({ engine, events }: RuleInput): RuleFinding {
  const shapes = events.exhaust.windows.map((w) => w.shape);
  const shape = shapes.reduce((a, b) => (b.chordWidth > a.chordWidth ? b : a));
  const limit = usualWidthPercent(engine.bore, shape);
  const chord = (percent: number) => (percent / 100) * engine.bore;
  const found = (shape.chordWidth / engine.bore) * 100;
  return finding({
    id: 'exhaust-window-width',
    title: 'Widest exhaust window',
    found,
    unit: '% bore',
    usual: [limit - 10, limit],
    reason: 'The ring bulges into a wide window; round roofs and small bores stand more.',
    source: NO_SOURCE,
    movedBy: 'width, roof arch, corners',
    sides: {
      below: `Room to widen by about ${mm(chord(limit) - shape.chordWidth)} before the ring minds, if blowdown wants it.`,
      within: `${mm(Math.max(0, chord(limit) - shape.chordWidth))} of width left to the usual limit for this bore and roof.`,
      above: `Narrow by ${mm(shape.chordWidth - chord(limit))}, bridge it, or round roof and corners more.`,
    },
  });
}

export function totalWidthRule({ engine, events }: RuleInput): RuleFinding {
  const total = events.exhaust.windows.reduce((sum, w) => sum + w.shape.count * w.shape.chordWidth, 0);
  return finding({
    id: 'exhaust-total-width',
    title: 'All exhaust windows',
    found: (total / engine.bore) * 100,
    unit: '% bore',
    usual: [50, 100],
    reason: 'Wider than the bore they crowd the transfers, whose loops then suffer.',
    source: NO_SOURCE,
    movedBy: 'widths, bridges',
    sides: {
      below: `${mm(0.5 * engine.bore - total)} short of half the bore: blowdown will need a high roof instead.`,
      within: `${mm(engine.bore - total)} of width left before it exceeds the bore.`,
      above: `Take ${mm(total - engine.bore)} off in all; raise the roof instead if blowdown wants the area.`,
    },
  });
}

/**
 * Least wall between an exhaust and a transfer window side by side [m]; null where a position is not given. A side
 * window whose floor stays above the transfers' roofs has no such wall.
 */
export function exhaustTransferLand(engine: Engine, input: Pick<RuleInput, 'events'>): number | null {
  const half = (shape: WindowShape) => shape.arcWidth / engine.bore;
  const radians = (deg: number) => (Math.abs(deg) * Math.PI) / 180;
  const transferRoof = Math.min(...input.events.transfers.windows.map((w) => w.shape.roof));
  let reach = -Infinity;
  for (const [i, window] of engine.exhaust.windows.entries()) {
    const shape = input.events.exhaust.windows[i]?.shape;
    if (!shape || shape.floor <= transferRoof) continue;
    const middle = window.aroundDeg ?? (window.count === 1 && engine.exhaust.windows.length === 1 ? 0 : null);
    if (middle === null) return null;
    reach = Math.max(reach, radians(middle) + half(shape));
  }
  let nearest = Infinity;
  for (const [i, window] of engine.transfers.windows.entries()) {
    const shape = input.events.transfers.windows[i]?.shape;
    if (!shape) continue;
    if (window.aroundDeg === null) return null;
    nearest = Math.min(nearest, radians(window.aroundDeg) - half(shape));
  }
  return Number.isFinite(nearest - reach) ? ((nearest - reach) * engine.bore) / 2 : null;
}

export function landRule({ engine, events }: RuleInput): RuleFinding {
  const land = exhaustTransferLand(engine, { events });
  const [low, high] = [0.1 * engine.bore, 0.22 * engine.bore];
  return finding({
    id: 'exhaust-transfer-land',
    title: 'Wall exhaust to transfer',
    found: land === null ? null : land * 1000,
    unit: 'mm',
    usual: [low * 1000, high * 1000],
    reason: 'Too little wall lets fresh charge slip straight across to the exhaust.',
    source: NO_SOURCE,
    movedBy: 'widths, positions around',
    sides: {
      below: `Move the nearest transfer ${mm(low - (land ?? 0))} away, or narrow the exhaust by twice that.`,
      within: 'Aim the nearest transfers away from the exhaust all the same.',
      above: `Wall to spare: ${mm((land ?? 0) - high)} a side could go to exhaust or transfer width.`,
      unknown: 'Give `around` for every window to have it checked (exhaust middle is 0 deg).',
    },
  });
}

/** The engine with its exhaust roofs raised so that each window stays open so much longer. */
export function withLongerExhaust(engine: Engine, events: RuleInput['events'], moreDeg: number): Engine {
  const windows = engine.exhaust.windows.map((window, i) => {
    const found = events.exhaust.windows[i];
    if (!found) return window;
    const durationDeg = Math.min(350, found.edgeDurationDeg + moreDeg);
    const raised = { ...window, height: null, roof: { by: 'duration', durationDeg } as const };
    if (window.height === null) return raised;
    const crankOnly = engineEvents({ ...engine, exhaust: { ...engine.exhaust, windows: [raised] } });
    const roof = crankOnly.exhaust.windows[0]?.shape.roof ?? found.shape.roof;
    return { ...raised, height: window.height + found.shape.roof - roof };
  });
  return { ...engine, exhaust: { ...engine.exhaust, windows } };
}

export function exhaustDurationRule({ engine, events, rpm }: RuleInput): RuleFinding {
  const longer = engineEvents(withLongerExhaust(engine, events, 2));
  const now = blowdownAngleArea(events);
  const gain =
    now > 0 ? `${((blowdownAngleArea(longer) / now - 1) * 100).toFixed(0)} % blowdown` : 'the first blowdown';
  const rise = (events.exhaust.windows[0]?.shape.roof ?? 0) - (longer.exhaust.windows[0]?.shape.roof ?? 0);
  const found = events.exhaust.durationDeg;
  const speed = meanPistonSpeed(events.crank, rpm);
  const middle = Math.round(usualExhaustDuration(speed));
  const [low, high] = [Math.min(190, middle - 5), Math.min(202, middle + 10)];
  const at = `usual at ${speed.toFixed(1)} m/s`;
  const buys = `The next 2 deg (roof ${(rise * 1000).toFixed(2)} mm up) buy ${gain} and by the handbook want the pipe ${(200 / found).toFixed(1)} % longer.`;
  return finding({
    id: 'exhaust-duration',
    title: 'Exhaust duration',
    found,
    unit: 'deg',
    usual: [low, high],
    reason: '165 to 180 in mild engines; racing ones need 190 to 202 for blowdown.',
    source: NO_SOURCE,
    movedBy: 'roof height, barrel lift',
    sides: {
      below: `${(low - found).toFixed(1)} deg short of ${low}, ${at}. ${buys}`,
      within: buys,
      above: `${(found - high).toFixed(1)} deg beyond ${high}, ${at}: trapped stroke is going. ${buys}`,
    },
  });
}
