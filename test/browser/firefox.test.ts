/** The report in Firefox, by WebDriver BiDi (W3C): as whole as in Chromium, its style and script taken by the policy of the page, no request to anywhere. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { renderReport } from '@shaftwork/report';
import { runScenario } from '@shaftwork/sim-core/run-scenario';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { demo } from '../demo.ts';
import { sampleResult } from '../report/sample-result.ts';
import { withStudies } from '../report/sample-studies.ts';
import { installedFirefox } from './installed-browser.ts';

const INSTALLING = 600_000;
const folder = mkdtempSync(join(tmpdir(), 'shaftwork-firefox-'));
let browser: Browser | undefined;
const pages = ['sample', 'hostile', 'survey-boat'] as const;

beforeAll(async () => {
  const hostile = '</style><script>document.title="run"</script><img src=x onerror=alert(2)>';
  const results = {
    sample: withStudies(sampleResult()),
    hostile: sampleResult({ names: [hostile, 'Other'], title: hostile }),
    'survey-boat': runScenario(demo('survey-boat')),
  };
  for (const name of pages) writeFileSync(join(folder, `${name}.html`), await renderReport(results[name]));
  const executablePath = installedFirefox();
  if (executablePath === undefined)
    console.log('No Firefox on this machine, and none could be installed: the report was not looked at in it.');
  else browser = await puppeteer.launch({ browser: 'firefox', executablePath, headless: true, args: ['--no-remote'] });
}, INSTALLING);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A page opened at a width, with what it complained of and what it asked for. */
async function opened(name: string, width: number): Promise<{ page: Page; complaints: string[]; requests: string[] }> {
  if (browser === undefined) throw new Error('no Firefox');
  const page = await browser.newPage();
  const complaints: string[] = [];
  const requests: string[] = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('request', (request) => requests.push(request.url()));
  await page.setViewport({ width, height: 900 });
  await page.goto(pathToFileURL(join(folder, `${name}.html`)).href, { waitUntil: 'load' });
  return { page, complaints, requests };
}

test.each(pages.flatMap((name) => [1280, 390].map((width) => [name, width] as const)))(
  '%s, %i px wide: styled, drawn, live, nothing wider than the page',
  async (name, width) => {
    if (browser === undefined) return expect(installedFirefox()).toBeUndefined();
    const { page, complaints, requests } = await opened(name, width);
    const seen = await page.evaluate(() => ({
      title: document.title,
      overflow: document.documentElement.scrollWidth - document.documentElement.clientWidth,
      sections: document.querySelectorAll('main section h2').length,
      drawings: [...document.querySelectorAll('figure svg')].filter((svg) => svg.getBoundingClientRect().height > 50).length,
      font: getComputedStyle(document.body).fontFamily,
      live: document.querySelectorAll('svg .live').length,
      strange: document.querySelectorAll('img, iframe, link, object, embed').length,
    }));
    expect(complaints).toEqual([]);
    expect(requests.filter((url) => !url.startsWith('file:') && !url.startsWith('data:'))).toEqual([]);
    expect(seen.title).not.toBe('run');
    expect(seen.overflow).toBeLessThanOrEqual(0);
    expect(seen.sections).toBeGreaterThan(8);
    expect(seen.drawings).toBeGreaterThan(3);
    expect(seen.font).toContain('Palatino');
    expect(seen.live).toBeGreaterThan(0);
    expect(seen.strange).toBe(0);
    await page.close();
  },
);
