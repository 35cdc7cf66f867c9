/** The reading aid as the text of a script: the function as it was compiled, called once. */
import { live } from './live.js';

export const liveScript = (): string => `(${live.toString()})();`;
