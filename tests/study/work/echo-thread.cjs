// What the threads of the pool's tests run: jobs that give their input back, fail, or take their thread down.
const { writeFileSync, existsSync } = require('node:fs');

const failure = (error) => ({
  ok: false,
  failure: { name: error.name, message: error.message, exitCode: error.exitCode ?? null, stack: error.stack },
});

function check({ value, rounds = 0 }) {
  let sum = value;
  for (let round = 0; round < rounds; round += 1) sum = Math.fround(sum * 1.25 + 1) % 1000;
  return { value, check: sum };
}

/** Takes the thread down, or fails by a defect; with a file, only as long as that is not there. */
function fault({ how, once }) {
  if (once !== undefined && existsSync(once)) return;
  if (once !== undefined) writeFileSync(once, '');
  if (how === 'exit') process.exit(7);
  if (how === 'defect') throw new TypeError('undefined is not a pipe');
  const held = [];
  for (;;) held.push(new Array(1e5).fill(held.length));
}

module.exports.work = async ({ kind, input }) => {
  if (kind !== 'echo-test') return failure(new Error(`There is no kind of job named "${kind}".`));
  try {
    if (input.how !== undefined) fault(input);
    const value = check(input);
    if (input.fail !== undefined) throw Object.assign(new RangeError(input.fail), { exitCode: 4 });
    return { ok: true, value };
  } catch (error) {
    return failure(error);
  }
};
