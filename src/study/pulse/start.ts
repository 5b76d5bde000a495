/**
 * The start of a pulse: every cell gets the gas of the section it lies in; a cell that a membrane cuts gets the mass,
 * momentum and energy of its parts, weighted by their exact volumes, so that nothing is gained or lost by the mesh.
 */

import { type GasModel, volumeBefore } from '../../../solver/index.ts';
import type { PulseSection } from '../../model/pulse.ts';
import type { Stretch } from './stretch.ts';

/** Fills the duct of a stretch; returns its thermal energy p V/(gamma-1) [J]. */
export function fillDuct(stretch: Stretch, gas: GasModel, burnt: number): number {
  const { duct } = stretch;
  const { cells, dx, volume } = duct.geometry;
  let thermal = 0;
  for (let i = 0; i < cells; i++) {
    const state = cellState(stretch, gas, burnt, i * dx, (i + 1) * dx);
    duct.setCell(i, state.pressure, state.temperature, state.velocity, burnt);
    thermal += (state.pressure * volume[i]!) / (gas.gamma(state.temperature, burnt) - 1);
  }
  return thermal;
}

interface CellState {
  readonly pressure: number;
  readonly temperature: number;
  readonly velocity: number;
}

/** Mean state between two positions of the duct, from its own left end. */
function cellState(stretch: Stretch, gas: GasModel, burnt: number, from: number, to: number): CellState {
  const parts = partsOf(stretch, from, to);
  if (parts.length === 1) return parts[0]!.section;
  const R = gas.gasConstant(burnt);
  let volume = 0;
  let mass = 0;
  let momentum = 0;
  let energy = 0;
  for (const part of parts) {
    const { pressure, temperature, velocity } = part.section;
    const m = (part.volume * pressure) / (R * temperature);
    volume += part.volume;
    mass += m;
    momentum += m * velocity;
    energy += m * (gas.energy(temperature, burnt) + 0.5 * velocity * velocity);
  }
  const velocity = momentum / mass;
  const temperature = gas.temperature(
    energy / mass - 0.5 * velocity * velocity,
    burnt,
    parts[0]!.section.temperature,
  );
  return { pressure: (mass / volume) * R * temperature, temperature, velocity };
}

interface Part {
  readonly section: PulseSection;
  readonly volume: number;
}

/** The sections that share a cell. An end correction belongs to the section it lengthens. */
function partsOf(stretch: Stretch, from: number, to: number): readonly Part[] {
  const { sections, tapers, start, origin } = stretch;
  const parts: Part[] = [];
  let left = 0;
  let right = start - origin;
  sections.forEach((section, k) => {
    right = k === sections.length - 1 ? Number.POSITIVE_INFINITY : right + section.length;
    const a = Math.max(from, left);
    const b = Math.min(to, right);
    // Slivers of round-off are no parts.
    if (b - a > 1e-9 * (to - from))
      parts.push({ section, volume: volumeBefore(tapers, b) - volumeBefore(tapers, a) });
    left = right;
  });
  return parts;
}
