/**
 * Units at the door. Each kind of quantity takes the units of its own table and no other; a text is parsed, never
 * evaluated. A unit is a power of ten times a ratio to the unit used inside (SI; degrees of crank and revolutions a minute
 * stay as they are). The power shifts the decimal point of the text, so that `0.42 mm` is the double nearest to 0.00042.
 * Factors: the International System of Units, 9th brochure (BIPM 2019); inch and pound: the 1959 agreement.
 */

import type { Dimension } from '../../model/dimension.ts';

interface Unit {
  /** Power of ten. */
  readonly power: number;
  readonly numerator: number;
  readonly denominator: number;
  /** Added after the factor, for temperatures read on a scale [K]. */
  readonly offset: number;
}

const ten = (power: number): Unit => ({ power, numerator: 1, denominator: 1, offset: 0 });

const ratio = (numerator: number, denominator = 1, offset = 0): Unit => ({
  power: 0,
  numerator,
  denominator,
  offset,
});

/** Pound over square inch: 4.4482216152605 N / (0.0254 m)^2 [Pa]. */
const PSI = ratio(44482216152605, 6451600000);

/** 550 ft lbf/s, with the foot of 0.3048 m and the pound-force of 4.4482216152605 N [W]; and one ft lbf [J]. */
const HORSEPOWER = ratio(550 * 3048 * 44482216152605, 1e17);
const FOOT_POUND = ratio(3048 * 44482216152605, 1e17);

/** Kinds of quantity: what it is called, and its units, the usual one first. */
export const DIMENSIONS = {
  length: {
    called: 'a length',
    units: { mm: ten(-3), cm: ten(-2), m: ten(0), in: ratio(254, 1e4), um: ten(-6) },
  },
  area: { called: 'an area', units: { mm2: ten(-6), cm2: ten(-4), m2: ten(0) } },
  volume: {
    called: 'a volume',
    units: { cc: ten(-6), cm3: ten(-6), ml: ten(-6), mm3: ten(-9), l: ten(-3), m3: ten(0) },
  },
  pressure: {
    called: 'a pressure',
    units: {
      bar: ten(5),
      mbar: ten(2),
      hPa: ten(2),
      kPa: ten(3),
      Pa: ten(0),
      MPa: ten(6),
      atm: ratio(101325),
      psi: PSI,
    },
  },
  temperature: {
    called: 'a temperature',
    units: { degC: ratio(1, 1, 273.15), K: ten(0), degF: ratio(5, 9, 459.67 * (5 / 9)) },
  },
  angle: { called: 'an angle', units: { deg: ten(0), rad: ratio(180, Math.PI) } },
  speed: { called: 'a shaft speed', units: { rpm: ten(0), Hz: ratio(60) } },
  velocity: { called: 'a velocity', units: { 'm/s': ten(0), 'km/h': ratio(10, 36) } },
  time: { called: 'a time', units: { ms: ten(-3), us: ten(-6), s: ten(0) } },
  density: { called: 'a density', units: { 'kg/m3': ten(0), 'g/cm3': ten(3) } },
  modulus: { called: 'a modulus of elasticity', units: { GPa: ten(9), MPa: ten(6), Pa: ten(0) } },
  gasConstant: { called: 'a specific gas constant', units: { 'J/(kg K)': ten(0), 'kJ/(kg K)': ten(3) } },
  heatingValue: { called: 'a heating value', units: { 'MJ/kg': ten(6), 'kJ/kg': ten(3), 'J/kg': ten(0) } },
  heatTransfer: { called: 'a heat transfer coefficient', units: { 'W/(m2 K)': ten(0) } },
  frictionPerSpeed: { called: 'a friction pressure per stroke and speed', units: { 'Pa/(m rpm)': ten(0) } },
  power: {
    called: 'a power',
    units: { kW: ten(3), W: ten(0), PS: ratio(73549875, 1e5), hp: HORSEPOWER },
  },
  torque: { called: 'a torque', units: { 'N m': ten(0), Nm: ten(0), 'lbf ft': FOOT_POUND } },
} as const satisfies Record<Dimension, { readonly called: string; readonly units: Record<string, Unit> }>;

/** Names of the units a dimension takes, the usual one first. */
export function unitsOf(dimension: Dimension): readonly string[] {
  return Object.keys(DIMENSIONS[dimension].units);
}

/** What a dimension takes, for a message: "a length takes mm, cm, m, in or um". */
export function takes(dimension: Dimension): string {
  const units = unitsOf(dimension);
  const listed = units.length === 1 ? units[0]! : `${units.slice(0, -1).join(', ')} or ${units.at(-1)!}`;
  return `${DIMENSIONS[dimension].called} takes ${listed}`;
}

function unitOf(dimension: Dimension, name: string): Unit | undefined {
  const units: Readonly<Record<string, Unit>> = DIMENSIONS[dimension].units;
  return Object.hasOwn(units, name) ? units[name] : undefined;
}

/** The dimension whose table has this unit, if any. */
export function dimensionOf(unitName: string): Dimension | null {
  const all = Object.keys(DIMENSIONS) as Dimension[];
  return all.find((dimension) => unitOf(dimension, unitName) !== undefined) ?? null;
}

/** A decimal number in a unit as the number used inside; a `difference` of temperatures has no zero point. */
export function toInside(
  decimal: string,
  unitName: string,
  dimension: Dimension,
  difference = false,
): number {
  const found = knownUnit(dimension, unitName);
  const shifted = shiftedPoint(decimal, found.power);
  return (shifted * found.numerator) / found.denominator + (difference ? 0 : found.offset);
}

/** The number used inside, written with a unit (the usual one if none is named) and at most `digits` figures. */
export function writeQuantity(inside: number, dimension: Dimension, unitName?: string, digits = 12): string {
  const name = unitName ?? unitsOf(dimension)[0]!;
  const found = knownUnit(dimension, name);
  const value = ((inside - found.offset) * found.denominator) / found.numerator;
  return `${Number(shiftedPoint(String(value), -found.power).toPrecision(digits))} ${name}`;
}

function knownUnit(dimension: Dimension, name: string): Unit {
  const found = unitOf(dimension, name);
  if (found === undefined) throw new RangeError(`${name} is no unit of ${dimension}`);
  return found;
}

/** A decimal times a power of ten, rounded once. */
function shiftedPoint(decimal: string, power: number): number {
  const [mantissa, exponent] = decimal.toLowerCase().split('e');
  return Number(`${mantissa!}e${Number(exponent ?? 0) + power}`);
}
