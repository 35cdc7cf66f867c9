/** A thread knows no TypeScript of its own. */
import { tsImport } from 'tsx/esm/api';

await tsImport('./drive-profiles.ts', import.meta.url);
