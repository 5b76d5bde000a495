// A program of made-up verbs on the built frame: each shows one way for a command to end.

const frame = new URL('../../dist/src/commands/frame/', import.meta.url).href;
const { runProgram, wired } = await import(`${frame}program.js`);
const { FileError } = await import(`${frame}exit-codes.js`);
const { readFileSync } = await import('node:fs');

const verb = (name, run) =>
  wired(
    {
      name,
      operands: '[files...]',
      summary: `Do ${name}`,
      description: '',
      flags: [],
      examples: ['a', 'b'],
      afterInterrupt: 'How to go on.',
    },
    async () => ({ run }),
  );

await runProgram(
  [
    verb('finish', async ({ terminal, flags }) => {
      terminal.answer(flags.json ? JSON.stringify(flags) : 'the answer');
      terminal.message('a message');
      terminal.warning('a warning');
      const progress = terminal.progress({ label: 'finish', things: 'steps', total: 2 });
      progress.advance(1);
      progress.advance(2);
      progress.finish();
    }),
    verb('case-error', async () => {
      throw Object.assign(new Error('line 3: unknown key "bor"'), { exitCode: 3 });
    }),
    verb('file-error', async () => {
      throw new FileError('cannot write there');
    }),
    verb('node-file-error', async () => {
      readFileSync('no/such/file.yaml');
    }),
    verb('unsettled', async () => 4),
    verb('defect', async () => {
      throw new TypeError('x is not a function');
    }),
    verb('wait', async ({ signal, terminal }) => {
      terminal.message('waiting');
      const hold = setInterval(() => {}, 1000);
      await new Promise((resolve) => signal.addEventListener('abort', resolve));
      clearInterval(hold);
      signal.throwIfAborted();
    }),
    verb('stubborn', async ({ terminal }) => {
      terminal.message('waiting');
      await new Promise(() => setInterval(() => {}, 1000));
    }),
    verb('flood', async ({ terminal }) => {
      for (let line = 0; line < 20_000; line += 1)
        terminal.answer(`line ${line} of a long answer that fills the pipe`);
      await new Promise((resolve) => setTimeout(resolve, 50));
      terminal.warning('went on to the end');
    }),
  ],
  process.argv.slice(2),
);
