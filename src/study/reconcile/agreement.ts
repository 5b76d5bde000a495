/** Whether files of measurements may be laid together: of one engine, in one air, of curves that are the same engine's. */

import type { DynoPoint, Measured, Weather } from '../../model/measured.ts';

/** Measurements that do not belong together; the message names files and lines. */
export class UnlikeMeasurements extends Error {
  override readonly name = 'UnlikeMeasurements';
  readonly exitCode = 3;
}

/** Air of two days that is still one air: one and a half per cent of its density. Judgement. */
const PRESSURE = 1000;
const TEMPERATURE = 4;

/** The air that all files name; null: none does. @throws UnlikeMeasurements */
export function agreedWeather(files: readonly Measured[]): Weather | null {
  const named = files.flatMap(({ name, ambient }) => (ambient === null ? [] : [{ name, ...ambient }]));
  const [first] = named;
  if (first === undefined) return null;
  const other = named.find(
    ({ pressure, temperature }) =>
      Math.abs(pressure - first.pressure) > PRESSURE ||
      Math.abs(temperature - first.temperature) > TEMPERATURE,
  );
  if (other === undefined) return first;
  const said = ({ name, pressure, temperature }: typeof first): string =>
    `"${name}" at ${Math.round(pressure / 100)} mbar and ${Math.round(temperature - 273.15)} degC`;
  throw new UnlikeMeasurements(
    `The files were measured in different air: ${said(first)}, ${said(other)}. Reconcile them one at a time.`,
  );
}

/** Curves further apart than so many of their errors, and than this share, at most of their speeds are two engines'. */
const APART = 4;
const SHARE = 0.12;

/** @throws UnlikeMeasurements */
export function refuseUnlike(files: readonly Measured[]): void {
  const named = files.filter(({ engine }) => engine !== '');
  const other = named.find(({ engine }) => plain(engine) !== plain(named[0]!.engine));
  if (other !== undefined)
    throw new UnlikeMeasurements(
      `The files are of different engines: "${named[0]!.name}" of ${named[0]!.engine}, "${other.name}" of ${other.engine}. ` +
        'Reconcile each engine with files of its own.',
    );
  const curves = files.flatMap(({ dyno }) => (dyno === null || dyno.factor.kind === 'free' ? [] : dyno));
  for (const [k, curve] of curves.entries())
    for (const before of curves.slice(0, k)) refuseTwoCurves(before.points, curve.points);
}

const plain = (name: string): string => name.toLowerCase().replaceAll(/\s+/g, ' ').trim();

function refuseTwoCurves(one: readonly DynoPoint[], other: readonly DynoPoint[]): void {
  const shared = other.flatMap((point) => {
    const torque = torqueAt(one, point.rpm);
    return torque === null ? [] : { point, ...torque };
  });
  const apart = shared.filter(({ point, value, error }) => {
    const miss = Math.abs(point.torque - value);
    return miss > APART * Math.hypot(error, point.error) && miss > SHARE * value;
  });
  if (apart.length === 0 || apart.length <= shared.length / 2) return;
  const { point, value, near } = apart.reduce((worst, each) =>
    Math.abs(each.point.torque - each.value) > Math.abs(worst.point.torque - worst.value) ? each : worst,
  );
  throw new UnlikeMeasurements(
    `${point.file}:${point.line}: ${point.torque.toFixed(1)} N m at ${Math.round(point.rpm)} rpm, and ${near.file}:${near.line} ` +
      `has ${value.toFixed(1)} N m there: these are curves of two engines, or of one that was changed between. ` +
      'Reconcile each with its own case; where two dynamometers differ, leave the factor of one free (factor: free).',
  );
}

/** Torque of a curve at a speed, straight between its points; null beyond them. */
function torqueAt(points: readonly DynoPoint[], rpm: number) {
  const k = points.findIndex((one) => one.rpm >= rpm);
  const [b, a] = [points[k], points[k - 1]];
  if (b === undefined || (a === undefined && b.rpm > rpm)) return null;
  const share = a === undefined ? 1 : (rpm - a.rpm) / (b.rpm - a.rpm || 1);
  const value = a === undefined ? b.torque : a.torque + share * (b.torque - a.torque);
  return { value, error: b.error, near: b };
}
