// Writes drafts into a journal, one after another: node journal-writer.mjs <journal> <drafts>. Meant to be killed.
const { openJournal } = await import(
  new URL('../../../dist/src/study/work/journal.js', import.meta.url).href
);
const { setTimeout: wait } = await import('node:timers/promises');

const [path, drafts] = process.argv.slice(2);
const journal = openJournal(path, {
  kind: 'test',
  name: 'killed',
  program: 'none',
  what: Number(drafts),
});
process.stdout.write(`${journal.count} ${journal.dropped}\n`);
for (let draft = 0; draft < Number(drafts); draft += 1) {
  if (journal.has(`draft-${draft}`)) continue;
  await wait(2);
  journal.append(`draft-${draft}`, {
    score: Math.sqrt(draft),
    curve: Array.from({ length: 500 }, (_, i) => i / (draft + 1)),
  });
}
journal.close();
