/**
 * Settled fields of an engine as a line of text, so that a journal can hold them and a queue can carry them: JSON whose columns of
 * numbers stand as the base64 of their bytes (IEEE 754, little-endian), which keeps every bit. What is read is taken on
 * trust for its numbers only: fields of finite numbers, of sane length.
 */

import type { EngineState } from '../../engine/run/state.ts';

/** An engine's fields as text. */
export type KeptState = string;

/** Numbers of one field at most, and parts, ducts or volumes of one engine. */
const MOST_NUMBERS = 20_000;
const MOST_PIECES = 100;

export function keptState({ parts }: EngineState): KeptState {
  return JSON.stringify(
    parts.map(({ ducts, volumes, motion }) => ({
      ducts: ducts.map((field) => [
        bytesOf(field.pressure),
        bytesOf(field.temperature),
        bytesOf(field.velocity),
        bytesOf(field.burnt),
        bytesOf(field.wallTemperature),
      ]),
      volumes: volumes.map(({ content, temperature }) => [bytesOf(content), bytesOf(temperature)]),
      motion: bytesOf(Float64Array.from(motion)),
    })),
  );
}

/** @throws RangeError where the text is no state */
export function stateOf(kept: KeptState): EngineState {
  let parts: unknown;
  try {
    parts = JSON.parse(kept);
  } catch {
    throw noState();
  }
  return {
    parts: listOf(parts).map((part) => {
      if (typeof part !== 'object' || part === null) throw noState();
      const { ducts, volumes, motion } = part as Record<string, unknown>;
      return {
        ducts: listOf(ducts).map((duct) => {
          const [pressure, temperature, velocity, burnt, wallTemperature] = fieldsOf(duct, 5, 2) as [
            Float64Array,
            Float64Array,
            Float64Array,
            Float64Array,
            Float64Array,
          ];
          return { pressure, temperature, velocity, burnt, wallTemperature };
        }),
        volumes: listOf(volumes).map((volume) => {
          const [content, temperature] = fieldsOf(volume, 2, 1) as [Float64Array, Float64Array];
          return { content, temperature };
        }),
        motion: [...numbersOf(motion, 0)],
      };
    }),
  };
}

const noState = (): RangeError => new RangeError('its fields are none of an engine');

function bytesOf(values: Float64Array): string {
  return Buffer.from(values.buffer, values.byteOffset, values.byteLength).toString('base64');
}

function listOf(value: unknown): readonly unknown[] {
  if (!Array.isArray(value) || value.length > MOST_PIECES) throw noState();
  return value;
}

function fieldsOf(value: unknown, count: number, fewest: number): readonly Float64Array[] {
  const columns = listOf(value);
  if (columns.length !== count) throw noState();
  return columns.map((column) => numbersOf(column, fewest));
}

function numbersOf(text: unknown, fewest: number): Float64Array {
  if (typeof text !== 'string') throw noState();
  const bytes = Buffer.from(text, 'base64');
  const count = bytes.length / 8;
  if (!Number.isInteger(count) || count < fewest || count > MOST_NUMBERS) throw noState();
  const values = new Float64Array(count);
  Buffer.from(values.buffer).set(bytes);
  if (!values.every(Number.isFinite)) throw noState();
  return values;
}
