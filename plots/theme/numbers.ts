/**
 * Numbers as the model can claim them: degrees to one, torque and power to a tenth, pressure to a hundredth of a bar,
 * lengths to a millimetre. An absent value is an en dash, a negative one carries a true minus.
 */

export type Maybe = number | null | undefined;

const ABSENT = '–';

/** Narrow no-break space between a number and its unit, and between thousands. */
export const THIN = '\u202f';

export const isNumber = (value: Maybe): value is number =>
  typeof value === 'number' && Number.isFinite(value);

/** Fixed decimals with a true minus; never a negative nought. */
export function fixed(value: Maybe, decimals: number): string {
  if (!isNumber(value)) return ABSENT;
  const text = Math.abs(value).toFixed(decimals);
  const negative = value < 0 && Number(text) !== 0;
  const [whole = '', fraction] = text.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, THIN) : whole;
  return `${negative ? '−' : ''}${grouped}${fraction === undefined ? '' : `.${fraction}`}`;
}

const unit = (value: Maybe, decimals: number, name: string, gap = THIN): string =>
  isNumber(value) ? `${fixed(value, decimals)}${gap}${name}` : ABSENT;

export const speed = (value: Maybe): string =>
  isNumber(value) ? `${String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, THIN)}` : ABSENT;
export const rpm = (value: Maybe): string => (isNumber(value) ? `${speed(value)}${THIN}rpm` : ABSENT);
export const degrees = (value: Maybe): string => unit(value, 0, '°', '');
export const newtonMetres = (value: Maybe): string => unit(value, 1, 'Nm');
export const kilowatts = (value: Maybe): string => unit(value, 1, 'kW');
export const bar = (value: Maybe): string => unit(value, 2, 'bar');
export const percent = (share: Maybe): string => (isNumber(share) ? unit(100 * share, 0, '%') : ABSENT);
export const millimetres = (metres: Maybe): string =>
  isNumber(metres) ? unit(1000 * metres, 0, 'mm') : ABSENT;
export const celsius = (kelvin: Maybe): string =>
  isNumber(kelvin) ? unit(kelvin - 273.15, 0, '°C') : ABSENT;
/** A difference with its sign; one that rounds to nought has none. */
export const signed = (value: Maybe, decimals: number): string => {
  const text = fixed(value, decimals);
  return isNumber(value) && value > 0 && Number(value.toFixed(decimals)) !== 0 ? `+${text}` : text;
};

/** A text of the terminal or of a case file, its numbers as pages print them: 11500 rpm, 450 degC, -14 deg. */
export const asPrinted = (text: string): string =>
  text
    .replace(/\bdegC\b/g, '°C')
    .replace(/\b([mc]?m)2\b/g, '$1²')
    .replace(/\b([mc]?m)3\b/g, '$1³')
    .replace(/(\d) deg\b/g, '$1°')
    .replace(/(^|[\s(])-(?=\d)/g, '$1−')
    .replace(/(\d) (%|Nm|kW|mm²?|bar|rpm|K|°C)(?!\w)/g, `$1${THIN}$2`)
    .replace(/\d{5,}(?=\s*(?:rpm|to \d|,|$))/g, (digits) => speed(Number(digits)))
    .replace(/\b\d{4}(?=(?: to [\d\u202f]+)?\u202frpm)/g, (digits) => speed(Number(digits)));
/** A small ratio such as a balance error: one digit and a power of ten. */
export const exponential = (value: Maybe): string =>
  isNumber(value)
    ? value
        .toExponential(1)
        .replace(/^-/, '−')
        .replace(/e(.*)$/, (_, power: string) => `·10${raised(power)}`)
    : ABSENT;

const raised = (power: string): string =>
  power
    .replace('+', '')
    .replace('-', '⁻')
    .replace(/\d/g, (digit) => '⁰¹²³⁴⁵⁶⁷⁸⁹'.charAt(Number(digit)));
