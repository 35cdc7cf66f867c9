/** All that is checked against something outside the program, by room. @module */
import { BLADES, SCREWS } from './blades.js';
import type { Topic } from './check.js';
import { DRIVES } from './drives.js';
import { CELLS, CONTROLLER } from './electrics.js';
import { HEAT } from './heat.js';
import { MEDIA } from './media.js';
import { MOTORS } from './motors.js';
import { FALLING_SCREWS, PROPELLERS } from './propellers.js';

export const TOPICS: readonly Topic[] = [MEDIA, CELLS, CONTROLLER, MOTORS, BLADES, PROPELLERS, SCREWS, FALLING_SCREWS, HEAT, DRIVES];
