/** Text from a case file as text, wherever it lands: control characters dropped, markup taken literally. */

// biome-ignore lint/suspicious/noControlCharactersInRegex: dropping them is the purpose
const controls = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g;

export const plain = (text: string): string => text.replace(controls, '');

/** For HTML and SVG, content or quoted attribute. Pages have it done by their template, `markup.ts`. */
export const escaped = (text: string): string =>
  plain(text)
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');

/**
 * For a label that Plotly sets: it reads a small mark-up of its own and entities, and in hover templates `%{…}`.
 * A word joiner after the per cent sign keeps such a text from being a template.
 */
export const label = (text: string): string =>
  escaped(text).replace(/&#39;/g, '’').replace(/%\{/g, '%\u2060{');

/** For a `<script type="application/json">`: no `<` can end the element. */
export const json = (data: unknown): string =>
  JSON.stringify(data)
    .replace(/</g, '\\u003c')
    .replace(/\u2028/g, '\\u2028')
    .replace(/\u2029/g, '\\u2029');
