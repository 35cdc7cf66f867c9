/** Scenarios that the schema allows, usual and absurd: a seed gives always the same. Numbers are drawn from a usual range, now and then from one far wider. */

/** Marsaglia's xorshift on 32 bits [0, 1). Source: G. Marsaglia, Journal of Statistical Software 8(14), 2003. */
export function xorshift(seed: number): () => number {
  let x = Math.imul(seed + 1, 0x9e3779b1) >>> 0 || 1;
  const next = (): number => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    x >>>= 0;
    return x / 0x100000000;
  };
  for (let k = 0; k < 8; k++) next();
  return next;
}

type Node = string | number | readonly Node[] | { readonly [key: string]: Node | undefined };

export interface RandomScenario {
  /** YAML, which JSON is a part of. */
  readonly text: string;
  /** The same with its candidates the other way round. */
  readonly reversed: string;
}

export function randomScenario(seed: number): RandomScenario {
  const random = xorshift(seed);
  const chance = (share: number): boolean => random() < share;
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)];
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  /** Share of numbers far outside the usual, and of keys that may be left out and are written. */
  const wild = pick([0, 0, 0, 0.03, 0.15, 0.5]);
  const written = pick([0.1, 0.4, 0.7]);
  const number = (low: number, high: number): string => {
    const far = chance(wild) ? 100 : 1;
    return ((low / far) * ((high / low) * far * far) ** random()).toPrecision(pick([2, 3, 5]));
  };
  /** A propeller stays inside its model: diameters are never far out. */
  const size = (low: number, high: number, unit: string): string => `${(low + (high - low) * random()).toFixed(1)} ${unit}`;
  const quantity = (low: number, high: number, unit: string): string =>
    `${Number(number(low, high))} ${unit}${chance(0.15) ? ` ± ${pick([1, 5, 20, 60])} %` : ''}`;
  const degrees = (low: number, high: number): string => `${(low + (high - low) * random()).toFixed(1)} °C`;
  const maybe = <T>(make: () => T): T | undefined => (chance(written) ? make() : undefined);

  const carrier = pick(['hull', 'wing', 'wheels', 'bench', 'drag-area'] as const);
  const wheels = carrier === 'wheels';
  const cells = whole(1, 6);
  const drag = (): Node => {
    const slope = Number(number(0.05, 3));
    return [1, 2.5, 5, 9].map((speed) => ({ speed: `${speed} m/s`, force: `${(slope * speed ** 1.7).toPrecision(4)} N` }));
  };
  const vehicle: Record<(typeof carrier)[number], () => Node | undefined> = {
    hull: () => ({ mass: quantity(0.3, 8, 'kg'), drag: drag() }),
    wing: () => ({
      mass: quantity(0.2, 4, 'kg'),
      wing: { area: quantity(0.05, 0.8, 'm2'), aspect_ratio: Number((4 + 12 * random()).toFixed(1)) },
    }),
    wheels: () => ({ mass: quantity(0.5, 5, 'kg'), drag_area: maybe(() => quantity(0.002, 0.05, 'm2')) }),
    bench: () => undefined,
    'drag-area': () => ({ mass: quantity(0.2, 4, 'kg'), drag_area: quantity(0.002, 0.05, 'm2') }),
  };
  const motor = (): Node => {
    const kv = Number(number(300, 4000));
    const layout = pick(['inrunner', 'outrunner']);
    return {
      layout,
      kv: `${kv} rpm/V`,
      resistance: `${Number(number(15, 200))} mohm`,
      no_load: { current: `${Number(number(0.2, 2.5))} A`, voltage: pick(['8 V', '10 V']) },
      mass: quantity(30, 400, 'g'),
      poles: maybe(() => pick([2, 4, 10, 14])),
      can: { diameter: quantity(20, 50, 'mm'), length: quantity(20, 70, 'mm') },
      maker_limits: maybe(() => ({ current: quantity(8, 90, 'A') })),
    };
  };
  const step = (): Node => {
    const rest = { for: `${Number(number(5, 300))} s` };
    const share = (): number => Math.round(100 * random());
    switch (pick(['throttle', 'throttle', 'ramp', 'current', 'power', carrier === 'bench' ? 'throttle' : 'speed', 'shaft'])) {
      case 'ramp':
        return { ...rest, throttle: `${share()} to ${share()} %` };
      case 'current':
        return { ...rest, motor_current: `${Number(number(1, 40))} A` };
      case 'power':
        return { ...rest, battery_power: `${Number(number(10, 400))} W` };
      case 'speed':
        return { ...rest, vehicle_speed: `${Number(number(1, 15))} m/s` };
      case 'shaft':
        return { ...rest, shaft_speed: `${Math.round(Number(number(1000, 15000)))} rpm` };
      default:
        return { ...rest, throttle: `${share()} %` };
    }
  };
  const common: { readonly [key: string]: Node | undefined } = {
    title: `Fuzz ${seed}`,
    ambient: { air: degrees(-10, 40), water: carrier === 'hull' ? degrees(2, 30) : undefined },
    battery: {
      chemistry: pick(['lithium-polymer', 'lithium-ion', 'lithium-iron-phosphate', 'nickel-metal-hydride']),
      cells: { series: cells, parallel: maybe(() => whole(1, 3)) },
      capacity: quantity(0.5, 8, 'Ah'),
      cell_resistance: maybe(() => quantity(1, 40, 'mohm')),
      discharge_rating: maybe(() => `${whole(10, 80)} C`),
    },
    controller: maybe(() => ({
      path_resistance: maybe(() => quantity(0.5, 20, 'mohm')),
      motor_current_limit: maybe(() => quantity(10, 120, 'A')),
      battery_current_limit: maybe(() => quantity(5, 80, 'A')),
      braking: maybe(() => 'regenerative'),
    })),
    other_loads: maybe(() => quantity(0.5, 20, 'W')),
    drives: maybe(() => whole(1, 3)),
    limits: maybe(() => ({ winding: degrees(90, 180), reserve: maybe(() => `${whole(0, 40)} %`) })),
    start: maybe(() => ({ charge: `${whole(5, 100)} %` })),
    ...(wheels
      ? { wheel: { radius: quantity(15, 80, 'mm') }, gearbox: { ratio: Number(number(2, 12)) } }
      : {
          propeller:
            carrier === 'hull'
              ? {
                  kind: 'marine-series',
                  diameter: size(25, 80, 'mm'),
                  pitch_ratio: Number((0.7 + 0.6 * random()).toFixed(2)),
                  blades: whole(2, 4),
                }
              : {
                  kind: 'blade-element',
                  diameter: size(6, 14, 'in'),
                  pitch: size(3, 9, 'in'),
                  family: maybe(() => pick(['thin', 'broad', 'stout', 'folding'])),
                },
        }),
    vehicle: vehicle[carrier](),
    profile: Array.from({ length: whole(1, 4) }, step),
  };
  const candidates = Array.from({ length: whole(1, 3) }, (_, k) => ({ name: 'ABC'[k], motor: motor() }));
  const textOf = (list: readonly Node[]): string => JSON.stringify({ ...common, candidates: list }, null, 1);
  return { text: textOf(candidates), reversed: textOf([...candidates].reverse()) };
}
