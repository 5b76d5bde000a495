/** Elements made by script. Text is set as text, never as mark-up. */

type Properties = Readonly<Record<string, string | number | boolean | undefined>>;

/** An element with attributes and children; false and undefined leave an attribute out. */
export function element<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Properties = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[Name] {
  const made = document.createElement(name);
  attribute(made, attributes);
  made.append(...children);
  return made;
}

/** The same for a drawing. */
export function drawn<Name extends keyof SVGElementTagNameMap>(
  name: Name,
  attributes: Properties = {},
  ...children: readonly (Node | string)[]
): SVGElementTagNameMap[Name] {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  attribute(made, attributes);
  made.append(...children);
  return made;
}

export function attribute(made: Element, attributes: Properties): void {
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) made.removeAttribute(key);
    else made.setAttribute(key, value === true ? '' : String(value));
  }
}

/** An element of the page that its markup is known to hold. @throws Error where it does not */
export function place<Kind extends Element = HTMLElement>(id: string): Kind {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no place "${id}"`);
  return found as Element as Kind;
}

/** Writes a text where it is another. */
export function write(at: Element, text: string): void {
  if (at.textContent !== text) at.textContent = text;
}
