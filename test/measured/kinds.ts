/** The kinds of measured tables; each has its section of docs/validation.md. */
import { TITLE as CHECKS } from '../checks/outside/page.js';
import { heat } from './heat.js';
import { plateaus } from './plateaus.js';
import { propellers } from './propellers.js';
import { thrustStand } from './thrust-stand.js';
import type { Section } from './validation.js';

export interface Kind {
  /** Heading of its section. */
  readonly title: string;
  /** What `npm run measured -- <kind>` needs. */
  readonly needs: string;
  readonly section: (path: string) => Section;
}

export const KINDS: Readonly<Record<string, Kind>> = {
  'thrust-stand': {
    title: 'Drives on a thrust stand',
    needs: 'a table with motor, propeller, nominal_V, esc_us, supply_V, supply_A, rpm, thrust_N, valid, supply_limited',
    section: thrustStand,
  },
  plateaus: {
    title: 'A large outrunner from 11 to 59 V',
    needs: 'a table with propeller, supply_V, supply_A, rpm, torque_Nm, valid',
    section: plateaus,
  },
  heat: { title: 'Heat of two large outrunners', needs: 'the folder of heat-runs.csv and heat-energy-runs.csv', section: heat },
  propellers: { title: 'Many propellers', needs: 'the folder of performance.csv and geometry.csv', section: propellers },
};

/** Headings of the page in their order: the checks, then the measured tables. */
export const TITLES: readonly string[] = [CHECKS, ...Object.values(KINDS).map(({ title }) => title)];

export const PAGE = new URL('../../packages/sim-core/docs/validation.md', import.meta.url);
