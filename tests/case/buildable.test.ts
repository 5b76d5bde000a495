/** Ring: identity. Engines that no metal could make are refused with the reason; what only just could is warned of. */

import { expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { type Edit, edited, problems } from './files.ts';

const ofEngine = (...edits: readonly Edit[]): string => problems(() => loadCase(edited({ engine: edits })));

test.each<[string, Edit, string]>([
  [
    'compression that leaves no room',
    ['trapped: 7.5', 'trapped: 25'],
    'engine.yaml:7:25: engine.compression.trapped: this makes a compression ratio of 49.6 over the full stroke',
  ],
  [
    'a crown deep in the bore',
    ['crownBelowDeck: 0 mm', 'crownBelowDeck: 60 mm'],
    'engine.crownBelowDeck: at top dead centre the crown would stand 60 mm below the deck',
  ],
  [
    'hardly a stroke',
    ['duration: 195 deg', 'duration: 280 deg'],
    'engine.exhaust.windows.main.duration: the port would be open for 280 of 360 deg',
  ],
  [
    'three main windows',
    ['width: 41 mm', 'count: 3\n      width: 38 mm'],
    'engine.exhaust.windows: the exhaust windows are 142.5 mm wide together',
  ],
  [
    'more windows than wall',
    ['count: 2, width: 17 mm', 'count: 4, width: 17 mm'],
    'wide together at one height; the bore is 169.6 mm round',
  ],
  [
    'a transfer in the exhaust',
    ['around: 72 deg', 'around: 60 deg'],
    'engine.transfers.windows.front.around: front overlaps the window main by',
  ],
  [
    'one name twice',
    ['name: side', 'name: main'],
    'engine.exhaust.windows.1.name: the name "main" is taken by another window, at engine.yaml:12:',
  ],
  [
    'no air',
    ['intake:', 'ambient: { pressure: 0.01 bar }\nintake:'],
    'engine.ambient.pressure: no engine runs in air of 0.01 bar',
  ],
])('%s', (_, edit, message) => {
  expect(ofEngine(edit)).toContain(message);
});

test('a roof above the deck, where the crown stands proud of it', () => {
  const message = ofEngine(
    ['crownBelowDeck: 0 mm', 'crownBelowDeck: -5 mm'],
    ['duration: 195 deg', 'roof: -1 mm'],
  );
  expect(message).toContain('windows.main.roof: the roof would stand above the deck: there is no wall');
});

test('windows that only just overlap are a warning, for a position is known to a degree or two', () => {
  const { warnings } = loadCase(edited({ engine: [['width: 41 mm', 'width: 42 mm']] }));
  expect(warnings.join(' ')).toMatch(/the windows front and main overlap by 0\.3751 mm/);
});
