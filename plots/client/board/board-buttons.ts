/** The buttons of the board and its shortcuts: back and forth, stages, files taken away. */

import { place } from './element.ts';
import { download, picture } from './take-away.ts';

export interface ButtonHands {
  walk(way: 'undo' | 'redo'): void;
  /** Keeps the draft as a stage; no name is given one. */
  keep(name: string): void;
  /** The table of rows was opened. */
  numbers(): void;
  /** Name of the draft, fit for a file. */
  name(): string;
  pipeYaml(): string;
  caseYaml(): string;
  canvases(): readonly HTMLCanvasElement[];
  paper(): string;
}

export function wireButtons(hands: ButtonHands): void {
  const on = (id: string, does: () => void): void => place(id).addEventListener('click', does);
  on('undo', () => hands.walk('undo'));
  on('redo', () => hands.walk('redo'));
  addEventListener('keydown', (event) => {
    const way = wayOf(event);
    // In a field the browser's own undo is meant.
    if (way === null || event.target instanceof HTMLInputElement) return;
    event.preventDefault();
    hands.walk(way);
  });
  on('keep', () => {
    const field = place<HTMLInputElement>('stage-name');
    hands.keep(field.value.trim());
    field.value = '';
  });
  place('numbers').addEventListener('toggle', () => hands.numbers());
  on('take-pipe', () => download(`${hands.name()}-pipe.yaml`, 'text/yaml', hands.pipeYaml()));
  on('take-case', () => download(`${hands.name()}.yaml`, 'text/yaml', hands.caseYaml()));
  on('take-picture', () =>
    picture(hands.canvases(), hands.paper(), (blob) => download(`${hands.name()}.png`, 'image/png', blob)),
  );
}

function wayOf({ key, ctrlKey, metaKey, shiftKey }: KeyboardEvent): 'undo' | 'redo' | null {
  if (!ctrlKey && !metaKey) return null;
  const letter = key.toLowerCase();
  if (letter === 'y' || (letter === 'z' && shiftKey)) return 'redo';
  return letter === 'z' ? 'undo' : null;
}
