/**
 * What aim offers from the demo's draft C to 11 000 rpm, beside the pipe that its search gave when it sought torque over +- 250 rpm
 * alone and knew no rules of thumb (commit fe5b763, its pipe by dimensions below). All are told by the mean torque over the target
 * +- 500 rpm of a sweep on one fine mesh.
 */

import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { echocone, flag, folderOf, keep, readJson, root } from './keep.mjs';

const fine = flag('--cell', '5mm');
const target = 11_000;
const speeds = [-500, -250, 0, 250, 500].map((by) => target + by);
const draft = join(root, 'cases/saltmarsh-125/draft-c.yaml');
const aimed = folderOf('offers');
echocone('aim', draft, '--rpm', String(target), '--overwrite', '--quiet', '--out', aimed);

const former = join(folderOf('former'), '../former-pipe.yaml');
writeFileSync(
  former,
  `kind: pipe
name: narrow, as sought before
sections:
  - { name: header, role: header, length: 40 mm, diameter: [36 mm, 38 mm] }
  - { name: diffuser 1, role: diffuser, length: 374 mm, to: 71 mm }
  - { name: diffuser 2, role: diffuser, length: 117 mm, to: 103 mm }
  - { name: belly, role: belly, length: 162 mm, diameter: same }
  - { name: baffle, role: baffle, length: 159 mm, to: 23 mm }
  - { name: stinger, role: stinger, length: 84 mm, diameter: same }
roughness: 0.045 mm
endCorrection: 0.6
`,
);

function swept(name, pipe) {
  const file = join(folderOf('former'), `../offer-${name}.yaml`);
  writeFileSync(
    file,
    `kind: case
name: ${name}
engine: ${join(root, 'cases/saltmarsh-125/engine.yaml')}
pipe: ${pipe}
run: { speeds: [${speeds.map((speed) => `${speed} rpm`).join(', ')}] }
`,
  );
  const out = folderOf(`offer-${name}`);
  echocone('sweep', file, '--no-advice', '--cell', fine, '--overwrite', '--quiet', '--out', out);
  const torque = readJson(join(out, 'sweep.json')).rows.map((row) => row.torque_nm);
  return { name, torque_nm: torque, mean_torque_nm: torque.reduce((a, b) => a + b, 0) / torque.length };
}

const offers = readdirSync(aimed).filter((name) => name.endsWith('.yaml'));
const pipes = [
  swept('given', join(root, 'cases/saltmarsh-125/pipe-c.yaml')),
  swept('narrow-as-sought-before', former),
  ...offers.map((name) => swept(name.replace('.yaml', ''), join(aimed, name))),
];
const before = pipes[1].mean_torque_nm;
keep('aim-offers', {
  cell: fine,
  speeds,
  pipes,
  eachIsAtLeastTheNarrow: pipes.slice(2).every((one) => one.mean_torque_nm >= before),
});
