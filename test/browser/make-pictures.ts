/** Makes the two pictures of README from the survey boat's report: `npm run pictures`. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { installedBrowser } from './installed-browser.ts';

const scenario = fileURLToPath(new URL('../../scenarios/survey-boat.yaml', import.meta.url));
const folder = fileURLToPath(new URL('../../docs/pictures/', import.meta.url));
const page = join(tmpdir(), `shaftwork-pictures-${process.pid}.html`);
const PICTURES = [
  { name: 'report.png', width: 1000, height: 1090, selector: 'header' },
  { name: 'how-sure.png', width: 1000, height: 700, selector: '#doubt' },
] as const;

const command = fileURLToPath(new URL('../../packages/cli/bin/shaftwork.js', import.meta.url));
execFileSync(process.execPath, [command, 'run', scenario, '--html', page, '--quiet', '--samples', '256']);
const browser = await chromium.launch({ executablePath: installedBrowser(), args: ['--no-sandbox'] });
try {
  mkdirSync(folder, { recursive: true });
  for (const { name, width, height, selector } of PICTURES) {
    const tab = await browser.newPage({ viewport: { width, height }, deviceScaleFactor: 0.8 });
    await tab.goto(pathToFileURL(page).href);
    const top = await tab.evaluate((what) => document.querySelector(what)!.getBoundingClientRect().top + scrollY, selector);
    const picture = await tab.screenshot({ fullPage: true, clip: { x: 0, y: Math.max(0, top - 40), width, height } });
    writeFileSync(join(folder, name), picture);
    await tab.close();
  }
} finally {
  await browser.close();
  rmSync(page, { force: true });
}
