/**
 * A Result becomes one page that opens offline: whole without scripts, no request to anywhere, everything that people wrote escaped.
 *
 * @module
 */

import type { RunResult } from '@shaftwork/sim-core';
import { SECONDS_PER_HOUR, SECONDS_PER_MINUTE } from '@shaftwork/sim-core/quantities';
import { counted, durationWords } from '../drawing/step-at.js';
import { stripChannels } from '../figures/profile-strips.js';
import { type EmbeddedRun, embedded, inertJson, remembered } from '../history/embedded.js';
import { headlineOf } from '../history/headline.js';
import { contentPolicy } from '../html/content-policy.js';
import { html, trusted } from '../html/html.js';
import { liveScript } from '../live/live-script.js';
import { runTable } from '../live/run-table.js';
import { type Section, viewOf, withNames } from './report-view.js';
import { afterStopSection } from './sections/after-stop.js';
import { auditSection } from './sections/audit.js';
import { assumptionsSection, cautionsSection, findingsSection, scenarioSection } from './sections/closing.js';
import { doubtSection } from './sections/doubt.js';
import { efficiencySection } from './sections/efficiency.js';
import { historySection } from './sections/history.js';
import { marginsSection } from './sections/margins.js';
import { measuredSection } from './sections/measured.js';
import { powerSection } from './sections/power.js';
import { profileSection } from './sections/profile.js';
import { provenanceSection } from './sections/provenance.js';
import { ratingSection } from './sections/rating.js';
import { readingsSection } from './sections/readings.js';
import { shapeSection } from './sections/shape.js';
import { sideBySideSection } from './sections/side-by-side.js';
import { temperatureSection } from './sections/temperature.js';
import { tippingSection } from './sections/tipping.js';
import { torqueSpeedSection } from './sections/torque-speed.js';
import { whySection } from './sections/why.js';
import { styleSheet } from './styles.js';

/** What a report is told beside the result. */
export interface ReportOptions {
  /** The day it was made, as it shall be read; the report has no clock of its own. */
  readonly date?: string;
  /** The run of the report that stood here before; its headline numbers are kept. */
  readonly before?: EmbeddedRun;
}

/** The report of a run as one page that needs nothing from outside. */
export async function renderReport(result: RunResult, { date, before }: ReportOptions = {}): Promise<string> {
  const view = viewOf(result, date);
  const now = headlineOf(result, date);
  const earlier = before === undefined ? [] : remembered(before, now);
  // One after another: figures are numbered in the order of the page.
  const sections: Section[] = [];
  for (const make of [
    temperatureSection,
    tippingSection,
    sideBySideSection,
    measuredSection,
    doubtSection,
    whySection,
    torqueSpeedSection,
    efficiencySection,
    afterStopSection,
    powerSection,
    ratingSection,
    profileSection,
    marginsSection,
    shapeSection,
    () => historySection(earlier, now),
    readingsSection,
    findingsSection,
    auditSection,
    assumptionsSection,
    cautionsSection,
    provenanceSection,
    scenarioSection,
  ]) {
    const section = await make(view);
    if (section !== undefined) sections.push(section);
  }
  const { scenario, version, verdict } = result;
  const [lead, ...rest] = verdict;
  const style = styleSheet(`${scenario.title.slice(0, 70)} · scenario ${scenario.hash}`);
  const over = [
    'Simulation report',
    `a run of ${durationWords(scenario.duration, SECONDS_PER_MINUTE, SECONDS_PER_HOUR)}`,
    counted(result.candidates.length, 'candidate'),
  ].join(' · ');
  const traced = result.candidates.some(({ trace }) => trace.time.length > 1);
  const script = traced ? liveScript() : undefined;
  const channels = ['windingTemperature', 'canTemperature', ...stripChannels(result)] as const;
  const page = html`<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${await contentPolicy(style, script)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="generator" content="shaftwork ${version}">
<title>${scenario.title}</title>
<style>${trusted(style)}</style></head>
<body><div class="page"><nav aria-label="Contents"><ol>${sections.map(({ id, word }) => html`<li><a href="#${id}">${word}</a></li>`)}</ol></nav>
<main><header><p class="over">${over}</p>
<h1>${scenario.title}</h1>
${lead === undefined ? '' : html`<p class="lead">${withNames(lead, view.looks)}</p>\n`}${rest.length === 0 ? '' : html`<p class="verdict">${withNames(rest.join(' '), view.looks)}</p>\n`}</header>
${sections.map(({ id, heading, body }) => html`<section id="${id}"><h2>${heading}</h2>\n${body}</section>\n`)}<footer><p>${[`shaftwork ${version}`, `scenario ${scenario.hash}`, ...(date === undefined ? [] : [date])].join(' · ')}</p>${scenario.notes === undefined ? '' : html`<p>${scenario.notes}</p>`}<p>Temperatures in °C, their differences in K.</p></footer></main></div>
${embedded({ schema: 'shaftwork.report/1', files: scenario.files, now, earlier })}${script === undefined ? '' : trusted(`\n<script type="application/json" id="run-table">${inertJson(runTable(result, channels))}</script>\n<script>${script}</script>`)}</body></html>
`;
  return page.html;
}
