/** Makes the two pictures of README from the survey boat's report: `npm run pictures`. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { installedBrowser } from './installed-browser.ts';

const scenario = fileURLToPath(new URL('../../scenarios/survey-boat.yaml', import.meta.url));
const folder = fileURLToPath(new URL('../../docs/pictures/', import.meta.url));
const page = join(tmpdir(), `shaftwork-pictures-${process.pid}.html`);
/** From the top of one element to the foot of another: a caption, never the middle of a figure. */
const PICTURES = [
  { name: 'report.png', from: 'header', to: '#figure-temperature figcaption' },
  { name: 'how-sure.png', from: '#doubt', to: '#figure-doubt figcaption' },
] as const;
const WIDTH = 1000;
const AIR = 32;
/** Less than the way to what follows the caption [px]. */
const UNDER = 8;

const command = fileURLToPath(new URL('../../packages/cli/bin/shaftwork.js', import.meta.url));
execFileSync(process.execPath, [command, 'run', scenario, '--html', page, '--quiet']);
const browser = await chromium.launch({ executablePath: installedBrowser(), args: ['--no-sandbox'] });
try {
  mkdirSync(folder, { recursive: true });
  // The letters are those of the drawings, whatever the machine has.
  const { resolve } = createRequire(new URL('../../packages/cli/package.json', import.meta.url));
  const face = (weight: number, file: string): string =>
    `@font-face{font-family:Inter;font-weight:${weight};src:url(data:font/ttf;base64,${readFileSync(resolve(`@expo-google-fonts/inter/${file}/Inter_${file}.ttf`)).toString('base64')})}`;
  const tab = await browser.newPage({ viewport: { width: WIDTH, height: 900 }, deviceScaleFactor: 2, bypassCSP: true });
  await tab.goto(pathToFileURL(page).href);
  await tab.addStyleTag({ content: face(400, '400Regular') + face(600, '600SemiBold') });
  await tab.evaluate(() => document.fonts.ready);
  for (const { name, from, to } of PICTURES) {
    const [top, bottom] = await tab.evaluate(
      ([first, last]) => [
        document.querySelector(first!)!.getBoundingClientRect().top + scrollY,
        document.querySelector(last!)!.getBoundingClientRect().bottom + scrollY,
      ],
      [from, to],
    );
    const clip = { x: 0, y: Math.max(0, top! - AIR), width: WIDTH, height: bottom! - Math.max(0, top! - AIR) + UNDER };
    writeFileSync(join(folder, name), await tab.screenshot({ fullPage: true, clip }));
  }
} finally {
  await browser.close();
  rmSync(page, { force: true });
}
