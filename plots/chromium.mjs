// How this project starts a headless Chromium: for its pictures, for the browser tests and for the benchmark.

export const chromiumPath = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** Asks nothing of any network. */
export const chromiumFlags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
