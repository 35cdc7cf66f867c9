/** Electrical chains drawn within what models have, the same whenever a test begins again. */
import type { ElectricalChain } from '@shaftwork/sim-core/drive/electrical-chain';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';

export function drawnChains(seed: number) {
  let random = seededRandom(seed, 1);
  const draw = (from: number, to: number): number => from + (to - from) * random.fraction();
  return {
    draw,
    /** Each test draws the same whenever it runs. */
    again: (): void => {
      random = seededRandom(seed, 1);
    },
    chainOf: (more: Partial<ElectricalChain> = {}): ElectricalChain => ({
      emf: draw(8, 30),
      sourceResistance: draw(0.005, 0.05),
      idleCurrent: draw(0, 0.2),
      otherPower: draw(0, 10),
      pathResistance: draw(0.001, 0.01),
      windingResistance: draw(0.02, 0.2),
      reactiveShare: draw(0, 0.01),
      sinusoidal: false,
      switchingShare: draw(0, 0.01),
      rippleLoss: draw(0, 1),
      diodeDrop: 0,
      deadTimeDrop: draw(0, 0.05),
      regenerative: true,
      ...more,
    }),
  };
}
