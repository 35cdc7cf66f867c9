/** A motor whose Kv follows from its no-load speed is rewound as one whose Kv is written. */
import { windingsOfScenario } from '@shaftwork/sim-core/other-questions';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { expect, it } from 'vitest';
import { changed } from '../../scenario/smallest-scenario.js';

it('a motor with a no-load speed in place of Kv is rewound', () => {
  const text = changed('kv: 920 rpm/V, ', '', changed('voltage: 10 V }', 'voltage: 10 V, speed: 8900 rpm }'));
  const preparation = prepareScenario(text);
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
  expect(() => windingsOfScenario(preparation.prepared)).not.toThrow();
});
