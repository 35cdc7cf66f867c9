/** How far a point misses the balances of voltage and power that Kirchhoff's laws ask of it, written down anew. */
import type { ChainPoint, ElectricalChain } from '@shaftwork/sim-core/drive/electrical-chain';

type Solved = Pick<ChainPoint, 'busVoltage' | 'busCurrent' | 'current' | 'duty'>;

/** Misses of the mesh of pack and bus [V], of the power through the bridge [W] and of the motor's mesh [V], each over a voltage or power of the point. */
export function chainMisses(chain: ElectricalChain, backEmf: number, { busVoltage, busCurrent, current, duty }: Solved): number[] {
  const path = chain.diodeDrop > 0 ? 0.5 * (1 + duty) * chain.pathResistance : chain.pathResistance;
  const drop = (1 - duty) * chain.diodeDrop + chain.deadTimeDrop;
  const working = (chain.windingResistance + path) * current + backEmf + Math.sign(current) * drop;
  const reactive = chain.reactiveShare * backEmf * current;
  const bridge = chain.sinusoidal ? Math.hypot(working, reactive) : working + reactive;
  const ripple = duty < 1 ? chain.rippleLoss * (busVoltage * duty * (1 - duty)) ** 2 : 0;
  const lost = chain.switchingShare * busVoltage * Math.abs(current) + chain.idleCurrent * busVoltage + ripple;
  return [
    (chain.emf - chain.sourceResistance * (busCurrent + chain.otherPower / busVoltage) - busVoltage) / chain.emf,
    (busVoltage * busCurrent - working * current - lost) / (chain.emf * (1 + Math.abs(current))),
    (duty * busVoltage - bridge) / chain.emf,
  ];
}
