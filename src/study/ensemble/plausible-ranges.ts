/**
 * What is plausible for each input that a case assumes: shape and width of its range, with which others it goes, why, and
 * the one step by which `--moves` changes it, about as much as it may be wrong. Where a reason names no source the range is
 * judgement: common practice, no source. The first line whose end fits a path is the one for it.
 */

/** Added to the number that the file would hold, in the unit it stands in; or a share of it. */
export type Amount = { readonly add: number } | { readonly share: number };

export type Range =
  /** About the case's own value. */
  | { readonly shape: 'normal'; readonly sd: Amount }
  /** Between numbers in the unit of the default. */
  | { readonly shape: 'uniform' | 'log-uniform'; readonly from: number; readonly to: number };

export interface PlausibleRange {
  /** End of the path. */
  readonly end: RegExp;
  /** Change that `--moves` makes. */
  readonly step: Amount;
  readonly range: Range;
  /** Inputs of one group go together, by a correlation of their normal scores [-]. */
  readonly together?: { readonly group: (path: string) => string; readonly correlation: number };
  readonly reason: string;
}

const NO_SOURCE = 'common practice, no source';
const normal = (sd: Amount): Range => ({ shape: 'normal', sd });
const uniform = (from: number, to: number): Range => ({ shape: 'uniform', from, to });
const factor = (from: number, to: number): Range => ({ shape: 'log-uniform', from, to });
const inGroup = (name: string, correlation: number) => ({ group: () => name, correlation });

export const PLAUSIBLE_RANGES: readonly PlausibleRange[] = [
  {
    end: /^pipe\.wall(\.given(\.\w+(\.temperature)?)?)?$/,
    step: { add: 50 },
    range: normal({ add: 50 }),
    together: inGroup('wall of the pipe', 0.8),
    reason: `a wall is hot or cool along its whole length, with the mixture and the air about it; ${NO_SOURCE}`,
  },
  {
    end: /\.(exhaust|transfers)\.discharge\.\w+$/,
    step: { add: 0.05 },
    range: normal({ add: 0.05 }),
    together: { group: (path) => path.replace(/\.\w+$/, ''), correlation: 0.7 },
    reason: `texts use 0.65 to 0.9 (value from memory); one port has one finish, so its four go together; ${NO_SOURCE}`,
  },
  {
    end: /discharge(\.\w+)?$/,
    step: { add: 0.05 },
    range: normal({ add: 0.05 }),
    reason: `texts use 0.65 to 0.9 (value from memory); ${NO_SOURCE}`,
  },
  {
    end: /crankcase\.wallTemperature$/,
    step: { add: 30 },
    range: normal({ add: 15 }),
    together: inGroup('weather', 0.6),
    reason: `a crankcase is as warm as the day and the load make it; ${NO_SOURCE}`,
  },
  {
    end: /wallTemperature$/,
    step: { add: 30 },
    range: normal({ add: 25 }),
    together: inGroup('walls of the cylinder', 0.8),
    reason: `cooling differs; cylinder and passage are one casting; ${NO_SOURCE}`,
  },
  {
    end: /passage\.(entry|exit)?area$/i,
    step: { share: 0.1 },
    range: normal({ share: 0.07 }),
    reason: `a passage that was not measured; ${NO_SOURCE}`,
  },
  {
    end: /transfers\.passage\.length$/,
    step: { share: 0.2 },
    range: normal({ share: 0.15 }),
    reason: `ducts of a barrel that was not measured; ${NO_SOURCE}`,
  },
  {
    end: /petals\.density$/,
    step: { share: 0.2 },
    range: normal({ share: 0.07 }),
    reason: `woven glass and carbon differ by some 15 % either way (value from memory)`,
  },
  {
    end: /petals\.modulus$/,
    step: { share: 0.2 },
    range: normal({ share: 0.15 }),
    reason: `laminates differ by some 30 % either way (value from memory)`,
  },
  {
    end: /petals\.damping$/,
    step: { add: 0.05 },
    range: factor(0.02, 0.12),
    reason: NO_SOURCE,
  },
  {
    end: /petals\.openSides$/,
    step: { add: 1 },
    range: uniform(0.5, 1.5),
    reason: `neighbours and the cage shield a side more or less; ${NO_SOURCE}`,
  },
  { end: /disc\.ramp$/, step: { add: 5 }, range: normal({ add: 4 }), reason: NO_SOURCE },
  {
    end: /combustion\.start$/,
    step: { add: 3 },
    range: uniform(-17, -11),
    reason: 'racing engines start 12 to 16 deg before top dead centre (value from memory), and a degree more',
  },
  {
    end: /combustion\.duration$/,
    step: { add: 6 },
    range: uniform(45, 60),
    reason: 'racing engines take 45 to 60 deg (value from memory)',
  },
  {
    end: /combustion\.wiebeEfficiency$/,
    step: { share: -0.2 },
    range: uniform(6.2, 7.6),
    reason: 'burns 99.8 to 99.95 % by its end: ln 500 to ln 2000',
  },
  {
    end: /combustion\.wiebeExponent$/,
    step: { add: 0.5 },
    range: uniform(1.5, 2.5),
    reason: 'fits to engines give 1.5 to 2.5 (value from memory)',
  },
  {
    end: /combustion\.completeness$/,
    step: { add: -0.05 },
    range: uniform(0.92, 0.98),
    reason: NO_SOURCE,
  },
  {
    end: /fuel\.hydrogenCarbonRatio$/,
    step: { add: 0.1 },
    range: uniform(1.75, 1.95),
    reason: 'petrols (Heywood 1988, value from memory)',
  },
  {
    end: /fuel\.equivalenceRatio$/,
    step: { add: 0.1 },
    range: uniform(1, 1.2),
    reason: `rich of the chemically correct, by more or less; ${NO_SOURCE}`,
  },
  {
    end: /fuel\.lowerHeatingValue$/,
    step: { share: 0.02 },
    range: uniform(42, 44.5),
    reason: 'petrols (value from memory)',
  },
  {
    end: /scavenging\.(threeWay\.)?displacement$/,
    step: { add: 0.1 },
    range: uniform(0.5, 0.9),
    reason: NO_SOURCE,
  },
  {
    end: /scavenging\.twoZone\.mixingVolume$/,
    step: { add: 0.15 },
    range: uniform(0.4, 0.8),
    reason: `0.4 to 0.8 are plausible; ${NO_SOURCE}`,
  },
  {
    end: /scavenging\.(\w+\.)?shortCircuit$/,
    step: { add: 0.05 },
    range: uniform(0, 0.15),
    reason: `0 to 0.15 are plausible; ${NO_SOURCE}`,
  },
  {
    end: /combustion\.residualAtDuration$/,
    step: { add: 0.05 },
    range: uniform(0.05, 0.15),
    reason: `0.05 to 0.15 are plausible; ${NO_SOURCE}`,
  },
  {
    end: /run\.mixing$/,
    step: { share: 1 },
    range: factor(0.5, 3),
    reason: '0.5 to 3 are plausible (no source)',
  },
  {
    end: /wallHeatFactor$/,
    step: { add: 0.5 },
    range: factor(0.7, 2),
    reason: 'fits to exhausts differ by this; 0.7 to 2 are plausible (no source)',
  },
  {
    end: /(cone|bend)Loss$/,
    step: { share: 1 },
    range: factor(0.5, 2),
    reason: '0.5 to 2 are plausible where a stream pulsates (no source)',
  },
  {
    end: /cylinderHeat\.coefficient$/,
    step: { share: 0.3 },
    range: normal({ share: 0.2 }),
    reason: `fits differ by more than a third between engines; ${NO_SOURCE}`,
  },
  {
    end: /friction\.constant$/,
    step: { add: 0.2 },
    range: uniform(0, 0.1),
    reason: `new seals and rings cost something at any speed; ${NO_SOURCE}`,
  },
  {
    end: /friction\.perSpeed$/,
    step: { share: 0.2 },
    range: normal({ share: 0.15 }),
    reason: NO_SOURCE,
  },
  {
    end: /ambient\.pressure$/,
    step: { share: -0.03 },
    range: uniform(0.98, 1.04),
    reason: 'weather at sea level, to some 200 m above it (value from memory)',
  },
  {
    end: /ambient\.temperature$/,
    step: { add: 10 },
    range: uniform(5, 30),
    together: inGroup('weather', 0.6),
    reason: 'days on which an engine is run, 5 to 30 degC; common practice, no source',
  },
  {
    end: /roughness$/,
    step: { share: 1 },
    range: factor(0.03, 0.3),
    reason: 'new steel to coke (Moody 1944, value from memory; coked pipes: common practice, no source)',
  },
  {
    end: /endCorrection$/,
    step: { add: 0.1 },
    range: uniform(0.4, 0.8),
    reason:
      'theory of weak long waves gives 0.61 (Levine & Schwinger 1948); a hot jet changes it (no source)',
  },
  {
    end: /emissivity$/,
    step: { add: -0.2 },
    range: uniform(0.5, 0.95),
    reason: 'bright to oxidised steel (value from memory)',
  },
  {
    end: /outsideCoefficient$/,
    step: { share: 0.5 },
    range: factor(30, 120),
    reason: `still air of a shed to the stream about a fast machine; ${NO_SOURCE}`,
  },
];

/** The line for a path; undefined: none is known. */
export const plausibleRange = (path: string): PlausibleRange | undefined =>
  PLAUSIBLE_RANGES.find(({ end }) => end.test(path));
