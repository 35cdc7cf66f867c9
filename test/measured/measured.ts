/** `npm run measured -- <kind> <table …> [--write]`: holds a measured table against the model. The table stays where it is. */
const KINDS: Readonly<Record<string, { readonly words: string; readonly run: () => Promise<unknown> }>> = {
  'thrust-stand': {
    words: 'predicts small motors at full throttle, and one supply from the other',
    run: () => import('./thrust-stand.js'),
  },
  plateaus: { words: 'identifies a large motor at 20–30 V and predicts its power elsewhere', run: () => import('./plateaus.js') },
  'heat-and-cool': { words: 'heat and cooling: a folder of runs as a table, or one run fitted', run: () => import('./heat-and-cool.js') },
};

const kind = process.argv[2] ?? '';
const chosen = KINDS[kind];
if (chosen === undefined) {
  process.stderr.write('Say what kind of table it is, then where it lies:\n');
  for (const [name, { words }] of Object.entries(KINDS)) process.stderr.write(`  ${name.padEnd(15)} ${words}\n`);
  process.exit(2);
}
process.argv.splice(2, 1);
void chosen.run();
