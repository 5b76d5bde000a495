/** What may happen to the bytes of a file: a bit, a digit, a stretch lost, doubled, moved, zeroed or put in. */

import fc from 'fast-check';

/**
 * Where it is and how much of the file it takes, as shares.
 * @typedef {{ readonly kind: string, readonly at: number, readonly length: number, readonly byte: number }} Damage
 */

const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });

/** @type {fc.Arbitrary<Damage>} */
export const damages = fc.record({
  kind: fc.constantFrom(
    'bit',
    'digit',
    'lost',
    'doubled',
    'swapped',
    'zeroed',
    'put in',
    'torn',
    'line lost',
  ),
  at: share,
  // Mostly short stretches.
  length: share.map((x) => x ** 4),
  byte: fc.nat(255),
});

/**
 * @param {Buffer} bytes
 * @param {Damage} damage
 * @returns {Buffer}
 */
export function damaged(bytes, { kind, at, length, byte }) {
  const from = Math.floor(at * bytes.length);
  const to = Math.min(bytes.length, from + 1 + Math.floor(length * bytes.length));
  const cut = (...pieces) => Buffer.concat([bytes.subarray(0, from), ...pieces]);
  const piece = bytes.subarray(from, to);
  const rest = bytes.subarray(to);
  switch (kind) {
    case 'bit':
      return cut(Buffer.from([(bytes[from] ?? 0) ^ (1 << (byte % 8))]), bytes.subarray(from + 1));
    case 'digit': {
      // The next digit in the file becomes another one: what JSON alone would believe.
      const place = bytes.findIndex((value, k) => k >= from && value >= 0x30 && value <= 0x39);
      const mended = Buffer.from(bytes);
      if (place >= 0) mended[place] = 0x30 + (((mended[place] ?? 0) - 0x30 + 1 + (byte % 9)) % 10);
      return mended;
    }
    case 'lost':
      return cut(rest);
    case 'doubled':
      return cut(piece, piece, rest);
    case 'swapped':
      return Buffer.concat([rest, bytes.subarray(0, to)]);
    case 'zeroed':
      return cut(Buffer.alloc(piece.length), rest);
    case 'put in':
      return cut(Buffer.alloc(1 + (byte % 64), byte), bytes.subarray(from));
    case 'torn':
      return bytes.subarray(0, from);
    case 'line lost': {
      const lines = bytes.toString('latin1').split('\n');
      lines.splice(Math.floor(at * lines.length), 1);
      return Buffer.from(lines.join('\n'), 'latin1');
    }
    default:
      throw new Error(`There is no damage of the kind "${kind}".`);
  }
}
