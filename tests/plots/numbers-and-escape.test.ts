import { describe, expect, it } from 'vitest';
import { escaped, json, label, plain } from '../../plots/theme/escape.ts';
import {
  asPrinted,
  bar,
  celsius,
  degrees,
  exponential,
  fixed,
  kilowatts,
  newtonMetres,
  percent,
  rpm,
  signed,
} from '../../plots/theme/numbers.ts';

describe('numbers as the model can claim them', () => {
  it('rounds to the digits of each quantity and keeps the unit with the number', () => {
    expect(degrees(261.4)).toBe('261°');
    expect(newtonMetres(19.249)).toBe('19.2\u202fNm');
    expect(kilowatts(27.46)).toBe('27.5\u202fkW');
    expect(bar(1.3249)).toBe('1.32\u202fbar');
    expect(percent(0.714)).toBe('71\u202f%');
    expect(celsius(900)).toBe('627\u202f°C');
    expect(rpm(9750)).toBe('9\u202f750\u202frpm');
  });

  it('shows what is absent, and never a negative nought', () => {
    expect(fixed(null, 1)).toBe('–');
    expect(fixed(Number.NaN, 1)).toBe('–');
    expect(fixed(-0.04, 1)).toBe('0.0');
    expect(fixed(-3.2, 1)).toBe('−3.2');
    expect(exponential(4.2e-13)).toBe('4.2·10⁻¹³');
    expect(exponential(0)).toBe('0.0·10⁰');
  });
});

describe('text of a case file', () => {
  it('is text in HTML, in a label and in embedded JSON', () => {
    const name = '<script>alert(1)</script> & "Söhne"';
    expect(escaped(name)).toBe('&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;Söhne&quot;');
    expect(label(name)).not.toContain('<');
    expect(json({ name })).not.toContain('<');
    expect(JSON.parse(json({ name }))).toEqual({ name });
  });

  it('is no hover template and carries no control or direction-changing characters', () => {
    expect(label('%{x}')).not.toContain('%{');
    expect(plain('a\u001b[31mb\u202ec\u0000')).toBe('a[31mbc');
  });
});

describe('texts of case files and of the terminal', () => {
  it.each([
    ['450 degC at the flange to 200 degC at the end', '450\u202f°C at the flange to 200\u202f°C at the end'],
    ['-14 deg', '−14°'],
    ['1191 mm2', '1191\u202fmm²'],
    ['2000 to 13000 rpm', '2\u202f000 to 13\u202f000\u202frpm'],
    ['texts of 1993-1996', 'texts of 1993-1996'],
  ])('%s', (text, printed) => {
    expect(asPrinted(text)).toBe(printed);
  });

  it('a difference that rounds to nought has no sign', () => {
    expect([signed(0.04, 1), signed(-0.04, 1), signed(0.06, 1), signed(-2, 0), signed(null, 1)]).toEqual([
      '0.0',
      '0.0',
      '+0.1',
      '−2',
      '–',
    ]);
  });
});
