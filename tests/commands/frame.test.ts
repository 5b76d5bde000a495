/** The command line's frame on the built program: exit codes, what goes to stdout and what to stderr, Ctrl-C. */

import { spawn, spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const fixture = fileURLToPath(new URL('frame-fixture.mjs', import.meta.url));

function fixtureRun(...words: string[]) {
  return spawnSync(process.execPath, [fixture, ...words], { encoding: 'utf8' });
}

describe('exit codes', () => {
  test.each([
    ['finish', 0],
    ['defect', 1],
    ['no-such-verb', 2],
    ['case-error', 3],
    ['unsettled', 4],
    ['file-error', 6],
    ['node-file-error', 6],
  ])('%s ends with %i', (verb, code) => {
    expect(fixtureRun(verb).status).toBe(code);
  });

  test('only a defect shows a stack', () => {
    expect(fixtureRun('defect').stderr).toMatch(/x is not a function\n\s+at /);
    for (const verb of ['case-error', 'file-error', 'node-file-error']) {
      expect(fixtureRun(verb).stderr).not.toMatch(/^\s+at /m);
    }
    expect(fixtureRun('node-file-error').stderr).toBe(
      'no/such/file.yaml: there is no such file or folder.\n',
    );
  });

  test('wrong use of the command line is 2 and says what is allowed', () => {
    const misspelt = fixtureRun('finsh');
    expect(misspelt.status).toBe(2);
    expect(misspelt.stderr).toContain('finish');
    const flag = fixtureRun('finish', '--quite');
    expect(flag.status).toBe(2);
    expect(flag.stderr).toContain('--quiet');
    const value = fixtureRun('finish', '--cell', '5');
    expect(value.status).toBe(2);
    expect(value.stderr).toContain('5mm');
    expect(fixtureRun('finish', '--threads', 'none').status).toBe(2);
    expect(fixtureRun('finish', '--set', 'nothing').status).toBe(2);
    expect(fixtureRun().status).toBe(2);
    expect(fixtureRun('--help').status).toBe(0);
    expect(fixtureRun('--version').stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});

describe('streams', () => {
  test('answers go to stdout, the rest to stderr without control characters when piped', () => {
    const { stdout, stderr } = fixtureRun('finish');
    expect(stdout).toBe('the answer\n');
    expect(stderr).toContain('a message\n');
    expect(stderr).toContain('a warning\n');
    expect(stderr).not.toContain('\r');
    expect(stderr).not.toContain('\u001b');
  });

  test('--quiet leaves warnings only', () => {
    expect(fixtureRun('finish', '--quiet').stderr).toBe('a warning\n');
  });

  test('flags reach the command', () => {
    const words = [
      '--json',
      '--cell',
      '5mm',
      '--threads',
      '3',
      '--set',
      'a.b=1 mm',
      '--set',
      'c= x=y',
      '--out',
      'here',
    ];
    expect(JSON.parse(fixtureRun('finish', ...words).stdout)).toMatchObject({
      json: true,
      cell: 0.005,
      threads: 3,
      out: 'here',
      overwrite: false,
      set: ['a.b=1 mm', 'c= x=y'],
    });
  });

  test('a reader that goes away does not end the command', async () => {
    const child = spawn(process.execPath, [fixture, 'flood'], { stdio: ['ignore', 'pipe', 'pipe'] });
    child.stdout.once('data', () => child.stdout.destroy());
    const said = await streamText(child.stderr);
    expect(said).toBe('went on to the end\n');
    expect(child.exitCode ?? (await exitCode(child))).toBe(0);
  });

  test('an answer that cannot be written is 6', () => {
    const { status, stderr } = spawnSync(
      'sh',
      ['-c', `"${process.execPath}" "${fixture}" finish > /dev/full`],
      {
        encoding: 'utf8',
      },
    );
    expect(status).toBe(6);
    expect(stderr).toContain('the disk is full');
  });
});

describe('Ctrl-C', () => {
  test('stops the command, says how to go on, ends with 130', async () => {
    const child = spawn(process.execPath, [fixture, 'wait'], { stdio: ['ignore', 'ignore', 'pipe'] });
    child.stderr.once('data', () => child.kill('SIGINT'));
    const said = await streamText(child.stderr);
    expect(said).toContain('Interrupted. How to go on.');
    expect(await exitCode(child)).toBe(130);
  });

  test('a second one ends a command that does not stop', async () => {
    const child = spawn(process.execPath, [fixture, 'stubborn'], { stdio: ['ignore', 'ignore', 'pipe'] });
    child.stderr.on('data', () => child.kill('SIGINT'));
    expect(await exitCode(child)).toBe(130);
  });

  test('one that does not stop in time is ended, and that is said', async () => {
    const child = spawn(process.execPath, [fixture, 'stubborn'], { stdio: ['ignore', 'ignore', 'pipe'] });
    child.stderr.once('data', () => child.kill('SIGINT'));
    const said = streamText(child.stderr);
    expect(await exitCode(child)).toBe(130);
    expect(await said).toMatch(/Interrupted\./);
  });
});

async function streamText(stream: AsyncIterable<Buffer>): Promise<string> {
  let text = '';
  for await (const piece of stream) text += piece.toString();
  return text;
}

function exitCode(child: ReturnType<typeof spawn>): Promise<number | null> {
  return new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) resolve(child.exitCode);
    else child.once('exit', resolve);
  });
}
