// Compiles the two-lane form of the duct kernel, scheme/two-lane/assembly, to WebAssembly and writes it into a script as text.
// Only where its sources, its settings or the compiler changed: it takes some seconds. Where the compiler is not installed or
// fails, the script says that there is no such kernel, this says why, and the build goes on.

import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';

const sources = fileURLToPath(new URL('scheme/two-lane/assembly/', import.meta.url));
const product = fileURLToPath(new URL('../dist/solver/scheme/two-lane/two-lane-kernel.js', import.meta.url));
const SETTINGS = [
  '-O3',
  '--uncheckedBehavior=always',
  '--noAssert',
  '--runtime=stub',
  '--importMemory',
  '--memoryBase=1024',
  '--enable=simd',
  // Pairs are handed over between the kernel's own functions only.
  '--disableWarning=112',
];

function compilerVersion() {
  try {
    return createRequire(import.meta.url)('assemblyscript/package.json').version;
  } catch {
    return null;
  }
}

/** What the kernel depends on. */
function fingerprint(version) {
  const hash = createHash('sha256').update(`${version} ${SETTINGS.join(' ')}`);
  for (const name of readdirSync(sources).sort()) hash.update(name).update(readFileSync(sources + name));
  return hash.digest('hex').slice(0, 16);
}

async function compile() {
  const { main } = await import('assemblyscript/asc');
  let binary = null;
  const { error, stderr } = await main(['index.ts', '--outFile=kernel.wasm', ...SETTINGS], {
    readFile: (name, base) => {
      try {
        return readFileSync(`${base === '.' ? sources : `${base}/`}${name}`, 'utf8');
      } catch {
        return null;
      }
    },
    writeFile: (_, content) => {
      binary = content;
    },
    listFiles: () => [],
  });
  if (error !== null || binary === null)
    throw new Error(`${error?.message ?? 'no output'}\n${stderr.toString()}`);
  return Buffer.from(binary).toString('base64');
}

function write(mark, kernel) {
  mkdirSync(dirname(product), { recursive: true });
  writeFileSync(
    product,
    `// Made by solver/compile-kernel.mjs from scheme/two-lane/assembly. ${mark}\nexport const KERNEL = '${kernel}';\n`,
  );
}

function isMade(mark) {
  try {
    return readFileSync(product, 'utf8').split('\n', 1)[0].endsWith(` ${mark}`);
  } catch {
    return false;
  }
}

const version = compilerVersion();
const mark = fingerprint(version);
if (version === null) {
  write('Not compiled.', '');
  process.stderr.write(
    'The two-lane kernel is left out: assemblyscript is not installed. The plain one does its work, slower.\n',
  );
} else if (!isMade(mark)) {
  try {
    write(mark, await compile());
  } catch (error) {
    write('Not compiled.', '');
    process.stderr.write(
      `The two-lane kernel is left out, it did not compile: ${error.message}\nThe plain one does its work, slower.\n`,
    );
  }
}
