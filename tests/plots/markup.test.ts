/** Identity: text is text wherever the template puts it, and no page writes markup past the template. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { html, Markup, trusted } from '../../plots/theme/markup.ts';

const nasty = `<img src=x onerror="alert('1')">&`;
const tame = '&lt;img src=x onerror=&quot;alert(&#39;1&#39;)&quot;&gt;&amp;';

describe('the template', () => {
  it('escapes text in content, in an attribute, and in a list', () => {
    expect(String(html`<b title="${nasty}">${nasty}</b>`)).toBe(`<b title="${tame}">${tame}</b>`);
    expect(String(html`<p>${[nasty, html`<i>${nasty}</i>`]}</p>`)).toBe(`<p>${tame}<i>${tame}</i></p>`);
  });

  it('keeps its own markup, runs lists together, and leaves out what is absent', () => {
    const items = ['a', 'b'].map((name) => html`<li>${name}</li>`);
    expect(String(html`<ul>${items}</ul>`)).toBe('<ul><li>a</li><li>b</li></ul>');
    expect(String(html`${null}${undefined}${false}${''}${[]}|${0}`)).toBe('|0');
  });

  it('takes no look-alike for its markup', () => {
    const forged = { toString: () => '<script>' } as unknown as Markup;
    expect(() => String(html`${forged}`)).toThrow(TypeError);
    expect(() => new (Markup as unknown as new (text: string) => Markup)('<script>')).toThrow(TypeError);
    expect(String(html`${trusted('<br>')}`)).toBe('<br>');
  });
});

const plots = fileURLToPath(new URL('../../plots', import.meta.url));
const files = readdirSync(plots, { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.ts'),
);

/** What Plotly sets in a label or a hover text; it reads these few and nothing else. */
const plotlyMarkup = /<\/?(?:b|br|span|extra)\b[^<>]*>/g;
const element = /<[a-z!/]/i;

/** Pieces of text of a file that hold an element and are not under the template's tag. */
function strayMarkup(name: string): string[] {
  const tree = ts.createSourceFile(
    name,
    readFileSync(join(plots, name), 'utf8'),
    ts.ScriptTarget.Latest,
    true,
  );
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const text =
      ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node) || ts.isTemplateExpression(node);
    const tagged = ts.isTaggedTemplateExpression(node.parent) && node.parent.tag.getText() === 'html';
    if (text && !tagged) {
      // Of a template only its own pieces: what is put into it is looked at by itself.
      const pieces = ts.isTemplateExpression(node)
        ? [node.head.text, ...node.templateSpans.map((span) => span.literal.text)]
        : [node.text];
      if (element.test(pieces.join('').replace(plotlyMarkup, ''))) found.push(node.getText().slice(0, 80));
    }
    ts.forEachChild(node, visit);
  };
  ts.forEachChild(tree, visit);
  return found;
}

describe('the pages', () => {
  it('write markup with the template only', () => {
    expect(files.flatMap((name) => strayMarkup(name).map((text) => `${name}: ${text}`))).toEqual([]);
  });

  it('trust only the style, the scripts, the policy and the data of the sheet', () => {
    const trusting = files.filter((name) => /\btrusted\(/.test(readFileSync(join(plots, name), 'utf8')));
    expect(trusting).toEqual(['pages/print-page.ts', 'pages/sheet.ts']);
  });
});
