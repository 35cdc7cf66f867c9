/**
 * The reading aid as the text of a script: what a reader with scripts gets beside the still page. It lays lines and letters over the drawings that are
 * there; the page is whole without it. Its parts are written in as they were compiled, so each may use only what it is given.
 *
 * @module
 */

import { liveHands } from './live-hands.js';
import { liveMoment } from './live-moment.js';
import { livePage } from './live-page.js';
import { liveStretch } from './live-stretch.js';

export const liveScript = (): string =>
  `(() => { const page = (${livePage.toString()})(); if (page === undefined) return; const show = (${liveMoment.toString()})(page); const zoom = (${liveStretch.toString()})(page, show); (${liveHands.toString()})(page, show, zoom); })();`;
