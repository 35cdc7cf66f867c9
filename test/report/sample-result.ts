/**
 * A Result for tests of the report: a rough hand model of an invented survey boat (no heat physics, two bodies, steps of a
 * second), so that every part of a Result is there, consistent, and may be varied: candidates, duration, endings, a missing vehicle.
 */
import {
  type Assumption,
  type CandidateResult,
  CHANNEL_IDS,
  type ChannelId,
  type Finding,
  HEAT_WAY_IDS,
  type HeatWay,
  type LimitResult,
  POWER_TERM_IDS,
  type PowerAccount,
  type PowerTerm,
  type RunEnd,
  type RunResult,
  type StepResult,
} from '@shaftwork/sim-core';
import { RPM, SECONDS_PER_HOUR, ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';

export interface SampleOptions {
  readonly names?: readonly string[];
  readonly title?: string;
  /** [s]; the steps are stretched to it. */
  readonly duration?: number;
  readonly vehicle?: boolean;
  readonly doubt?: boolean;
  readonly unlabelled?: boolean;
  /** Ends of candidates by their place: they stop at half time. */
  readonly ends?: readonly RunEnd[];
  /** A verdict of one's own. */
  readonly verdict?: readonly string[];
}

interface Motor {
  readonly resistance: number;
  readonly noLoadCurrent: number;
  /** Winding to can, can to water [W/K]. */
  readonly windingPath: number;
  readonly canPath: number;
  readonly windingCapacity: number;
  readonly mass: number;
  readonly diameter: number;
  readonly length: number;
}

const MOTORS: readonly Motor[] = [
  {
    resistance: 0.065,
    noLoadCurrent: 0.7,
    windingPath: 0.76,
    canPath: 2.35,
    windingCapacity: 36,
    mass: 0.236,
    diameter: 0.039,
    length: 0.047,
  },
  {
    resistance: 0.072,
    noLoadCurrent: 0.66,
    windingPath: 1.1,
    canPath: 2.9,
    windingCapacity: 38,
    mass: 0.236,
    diameter: 0.03,
    length: 0.074,
  },
  {
    resistance: 0.118,
    noLoadCurrent: 0.52,
    windingPath: 0.68,
    canPath: 2.0,
    windingCapacity: 25,
    mass: 0.168,
    diameter: 0.033,
    length: 0.05,
  },
];
const TORQUE_CONSTANT = 1 / (610 * RPM);
const PROPELLER = 4.9e-7;
const SPEED_PER_TURN = 0.00505;
const WATER = ZERO_CELSIUS + 14;
const START = ZERO_CELSIUS + 24;
const CAPACITY = 6.2 * SECONDS_PER_HOUR;
const CELLS = 4;
const PACK_RESISTANCE = 0.0124;

const STEPS: readonly {
  readonly share: number;
  readonly label: string;
  readonly speed?: number;
  readonly throttle?: readonly [number, number];
}[] = [
  { share: 90, label: 'out to the first line', speed: 2 },
  ...Array.from({ length: 7 }, () => [
    { share: 38, label: 'survey line', speed: 2.2 },
    { share: 8, label: 'sprint turn', throttle: [0.6, 1] as const },
  ]).flat(),
  { share: 248, label: 'home before the squall', throttle: [1, 1] },
];

interface Moment {
  readonly power: PowerAccount;
  readonly channels: Record<ChannelId, number>;
}

/** Steady state of chain and propeller at one throttle or one speed. */
function moment(
  motor: Motor,
  charge: number,
  hot: number,
  ask: { readonly turning?: number; readonly throttle?: number },
  vehicle: boolean,
  held?: number,
): Moment {
  const resistance = motor.resistance * (1 + 0.00393 * (hot - START));
  const open = CELLS * (3.45 + 0.75 * charge ** 0.8);
  let bus = held ?? open;
  let turning = ask.turning ?? 0;
  let current = 0;
  let duty = ask.throttle ?? 0;
  let fromPack = 0;
  for (let round = 0; round < 40; round++) {
    if (ask.turning === undefined) {
      // duty · bus = k ω + R (p ω² / k + i0)
      const a = (resistance * PROPELLER) / TORQUE_CONSTANT;
      const c = resistance * motor.noLoadCurrent - duty * bus;
      turning = (-TORQUE_CONSTANT + Math.sqrt(TORQUE_CONSTANT ** 2 - 4 * a * c)) / (2 * a);
    }
    current = (PROPELLER * turning ** 2) / TORQUE_CONSTANT + motor.noLoadCurrent;
    if (ask.turning !== undefined) duty = (TORQUE_CONSTANT * turning + resistance * current) / bus;
    fromPack = duty * current + 0.07 + (current ** 2 * 0.003 + 1.4) / bus;
    bus = held ?? open - fromPack * PACK_RESISTANCE - fromPack * 0.003;
  }
  const shaft = PROPELLER * turning ** 3;
  const idle = TORQUE_CONSTANT * turning * motor.noLoadCurrent;
  const useful = vehicle ? shaft * 0.92 * 0.52 : 0;
  const parts: Omit<Record<PowerTerm, number>, 'batteryChemical'> = {
    batteryLoss: fromPack ** 2 * PACK_RESISTANCE,
    polarisationStored: 0,
    wiringLoss: fromPack ** 2 * 0.003,
    otherLoads: 0,
    controllerIdle: 0.07 * bus,
    controllerConduction: current ** 2 * 0.003,
    controllerSwitching: 1.4,
    copperLoss: current ** 2 * resistance,
    ironLoss: idle * 0.7,
    frictionLoss: idle * 0.3,
    shaftStored: 0,
    gearLoss: shaft * 0.08,
    propellerLoss: shaft * 0.92 - useful,
    useful,
  };
  const power = { batteryChemical: Object.values(parts).reduce((sum, part) => sum + part, 0), ...parts };
  const speed = vehicle ? turning * SPEED_PER_TURN : 0;
  return {
    power,
    channels: {
      throttle: duty,
      vehicleSpeed: speed,
      climbRate: 0,
      shaftSpeed: turning,
      motorTorque: PROPELLER * turning ** 2,
      thrust: speed > 0 ? useful / speed : 0,
      motorCurrent: current,
      batteryCurrent: fromPack,
      busVoltage: bus,
      cellVoltage: bus / CELLS,
      charge,
      batteryPower: power.batteryChemical - power.batteryLoss,
      inputPower: parts.copperLoss + idle + shaft,
      shaftPower: shaft,
      copperLoss: parts.copperLoss,
      noLoadLoss: idle,
      controllerLoss: parts.controllerIdle + parts.controllerConduction + parts.controllerSwitching,
      windingTemperature: hot,
      statorTemperature: hot,
      canTemperature: hot,
      magnetTemperature: hot,
      controllerTemperature: START,
      cellTemperature: START,
    },
  };
}

export function sampleResult(options: SampleOptions = {}): RunResult {
  const {
    names = ['Wide', 'Long', 'Small'],
    duration = 668,
    unlabelled = false,
    title = 'Lake survey boat, three motors for one hull',
  } = options;
  const stretch = duration / STEPS.reduce((sum, { share }) => sum + share, 0);
  let from = 0;
  const steps: StepResult[] = STEPS.map(({ share, label, speed }) => {
    const step = {
      from,
      to: from + share * stretch,
      hold: speed === undefined ? ('throttle' as const) : ('vehicleSpeed' as const),
      ...(unlabelled ? {} : { label }),
    };
    from = step.to;
    return step;
  });
  const candidates = names.map((name, index) => candidateOf(name, index, steps, duration, options));
  const peak = (candidate: CandidateResult): number => candidate.headline.peakWindingTemperature.nominal;
  const ranking = [...candidates].sort((a, b) => Number(b.feasible) - Number(a.feasible) || peak(a) - peak(b)).map(({ name }) => name);
  const best = candidates.find(({ name }) => name === ranking[0])!;
  return {
    schema: 'shaftwork.run/1',
    version: '0.1.0',
    scenario: {
      title,
      notes: 'Invented example.',
      objective: 'coolest',
      hash: '3f9c41d7',
      steps,
      duration,
      files: [
        {
          path: 'survey-boat.yaml',
          text: `title: ${title}\nambient: { air: 24 °C, water: 14 °C }\ncandidates:\n${names.map((name) => `  - name: ${name}\n`).join('')}`,
        },
        { path: 'parts/pack.yaml', text: 'part: battery\nchemistry: lithium-polymer\n' },
      ],
    },
    candidates,
    ranking,
    verdict: options.verdict ?? [
      `Take ${best.name}: its winding peaks at ${(peak(best) - ZERO_CELSIUS).toFixed(0)} °C.`,
      ...(ranking.length > 1 ? [`The runner-up is ${ranking[1]}.`] : []),
      ...candidates.filter(({ feasible }) => !feasible).map(({ name }) => `${name} passes a limit.`),
    ],
    findings: candidates.flatMap(({ findings }) => findings),
    assumptions: assumptionsOf(names),
    cautions: [
      'The water jacket was given no map: its conductance at rest is a guess of the rule.',
      'Cavitation is checked, not calculated.',
    ],
  };
}

function candidateOf(name: string, index: number, steps: readonly StepResult[], duration: number, options: SampleOptions): CandidateResult {
  const model = MOTORS[index % MOTORS.length]!;
  const shift = 1 + 0.12 * Math.floor(index / MOTORS.length);
  const motor = { ...model, resistance: model.resistance * shift, mass: model.mass * shift };
  const vehicle = options.vehicle ?? true;
  const end = options.ends?.[index] ?? 'finished';
  const until = end === 'finished' ? duration : duration / 2;
  const count = Math.min(4000, Math.max(120, Math.round(until)));
  const trace: Record<string, number[]> & { time: number[] } = Object.assign(
    { time: [] as number[] },
    Object.fromEntries(CHANNEL_IDS.map((id) => [id, [] as number[]])),
  );
  const energies = Object.fromEntries(POWER_TERM_IDS.map((id) => [id, 0])) as Record<PowerTerm, number>;
  let winding = START;
  let can = START;
  let charge = 1;
  let hardest: (Moment & { readonly time: number }) | undefined;
  const total = steps.at(-1)!.to;
  const pace = 668 / duration;
  for (let sample = 0; sample <= count; sample++) {
    const time = (until * sample) / count;
    const dt = sample === 0 ? 0 : until / count;
    const place = steps.findIndex(({ to }) => time <= to + 1e-9);
    const step = steps[place]!;
    const plan = STEPS[place]!;
    const share = (time - step.from) / (step.to - step.from);
    const ask =
      plan.speed === undefined
        ? { throttle: plan.throttle![0] + (plan.throttle![1] - plan.throttle![0]) * share }
        : { turning: plan.speed / SPEED_PER_TURN };
    const now = moment(motor, charge, winding, ask, vehicle);
    // Heat runs at the pace of the usual run, so that short and long runs look alike.
    const heat = dt * pace;
    const across = motor.windingPath * (winding - can);
    winding += (heat * (now.power.copperLoss + now.power.ironLoss * 0.3 - across)) / motor.windingCapacity;
    can +=
      (heat *
        (across + now.power.ironLoss * 0.7 - motor.canPath * (can - WATER) * (vehicle ? 0.55 + now.channels.vehicleSpeed / 10 : 0.6))) /
      150;
    charge -= (heat * now.channels.batteryCurrent) / CAPACITY;
    for (const id of POWER_TERM_IDS) energies[id] += now.power[id] * dt;
    const channels: Record<ChannelId, number> = {
      ...now.channels,
      windingTemperature: winding,
      canTemperature: can,
      statorTemperature: can + 0.25 * (winding - can),
      magnetTemperature: can + 0.1 * (winding - can),
      controllerTemperature: START + 9 * (1 - charge) * 2,
      cellTemperature: START + 12 * (1 - charge),
      charge,
    };
    trace.time.push(time);
    for (const id of CHANNEL_IDS) trace[id]!.push(channels[id]);
    if (
      hardest === undefined ||
      (place === steps.length - 1 && now.power.batteryChemical > 0 && time < step.from + (total - step.from) * 0.4)
    )
      hardest = { ...now, channels, time };
  }
  const worst = (id: ChannelId, sign = 1): { value: number; time: number } =>
    trace[id]!.reduce((best, value, place) => (sign * value > sign * best.value ? { value, time: trace.time[place]! } : best), {
      value: trace[id]![0]!,
      time: 0,
    });
  const limit = (
    id: LimitResult['id'],
    channel: ChannelId,
    words: string,
    dimension: LimitResult['dimension'],
    shown: LimitResult['shown'],
    bound: number,
    sense: LimitResult['sense'] = 'ceiling',
  ): LimitResult => {
    const start = trace[channel]![0]!;
    const { value, time } = worst(channel, sense === 'ceiling' ? 1 : -1);
    const margin = sense === 'ceiling' ? bound - value : value - bound;
    const passed = trace[channel]!.findIndex((one) => (sense === 'ceiling' ? one > bound : one < bound));
    return {
      id,
      words,
      dimension,
      shown,
      bound,
      origin: 'scenario line 34',
      sense,
      start,
      worst: value,
      worstTime: time,
      margin,
      marginShare: margin / Math.abs(bound - start),
      ...(passed >= 0 ? { passed: { at: trace.time[passed]! } } : {}),
    };
  };
  const limits = [
    limit('windingTemperature', 'windingTemperature', 'winding', 'temperature', '°C', ZERO_CELSIUS + 130),
    limit('magnetTemperature', 'magnetTemperature', 'magnets', 'temperature', '°C', ZERO_CELSIUS + 100),
    limit('controllerTemperature', 'controllerTemperature', 'controller', 'temperature', '°C', ZERO_CELSIUS + 95),
    limit('cellTemperature', 'cellTemperature', 'cells', 'temperature', '°C', ZERO_CELSIUS + 60),
    limit('motorCurrent', 'motorCurrent', 'motor current', 'current', 'A', [40, 38, 34][index % 3]!),
    limit('inputPower', 'inputPower', 'motor input power', 'power', 'W', [620, 600, 520][index % 3]!),
    limit('cellVoltage', 'cellVoltage', 'loaded cell voltage', 'voltage', 'V', 3.3, 'floor'),
    limit('reserve', 'charge', 'charge left', 'fraction', '%', 0.2, 'floor'),
  ].sort((a, b) => a.marginShare - b.marginShare);
  const figure = <D extends string>(dimension: D, nominal: number, zero = dimension === 'temperature' ? START : 0) => ({
    dimension,
    nominal,
    ...(options.doubt ? { band: { p05: nominal - 0.1 * (nominal - zero), p95: nominal + 0.14 * (nominal - zero) } } : {}),
  });
  const failed = end === 'failed';
  const findings: Finding[] = limits.flatMap(({ id, passed, worst: value, bound }) =>
    passed === undefined ? [] : [{ candidate: name, kind: 'limit-passed' as const, limit: id, time: passed.at, value, bound }],
  );
  if (end === 'cut-off') findings.push({ candidate: name, kind: 'cut-off-reached', time: until, bound: 3.3 });
  if (failed)
    findings.push({
      candidate: name,
      kind: 'no-operating-point',
      time: until,
      step: 9,
      label: 'survey line',
      why: 'the load asks more torque than the motor gives at any speed',
    });
  if (index === 0)
    for (const step of [1, 3, 5])
      findings.push({
        candidate: name,
        kind: 'step-not-held',
        time: steps[step]!.to,
        step,
        label: 'survey line',
        wanted: 2.2,
        reached: 2.14,
      });
  const speeds = Array.from({ length: 45 }, (_, place) => place * 26);
  const chart = hardest!;
  const throttles = [0.4, 0.6, 0.8, 1];
  const hotResistance = motor.resistance * (1 + 0.00393 * (chart.channels.windingTemperature - START));
  const crossing = (throttle: number) => {
    const at = moment(
      motor,
      chart.channels.charge,
      chart.channels.windingTemperature,
      { throttle },
      vehicle,
      chart.channels.busVoltage,
    ).channels;
    return {
      throttle,
      speed: at.shaftSpeed,
      torque: at.motorTorque,
      motorCurrent: at.motorCurrent,
      efficiency: at.shaftPower / at.inputPower,
    };
  };
  const allLosses = energies.batteryLoss + energies.copperLoss + energies.ironLoss + energies.frictionLoss + energies.controllerConduction;
  return {
    name,
    feasible: end === 'finished' && limits.every(({ passed }) => passed === undefined),
    limits,
    headline: {
      peakWindingTemperature: figure('temperature', worst('windingTemperature').value),
      peakCanTemperature: figure('temperature', worst('canTemperature').value),
      peakMagnetTemperature: figure('temperature', worst('magnetTemperature').value),
      peakControllerTemperature: figure('temperature', worst('controllerTemperature').value),
      peakCellTemperature: figure('temperature', worst('cellTemperature').value),
      peakMotorCurrent: figure('current', worst('motorCurrent').value),
      peakBatteryCurrent: figure('current', worst('batteryCurrent').value),
      peakInputPower: figure('power', worst('inputPower').value),
      peakBatteryPower: figure('power', worst('batteryPower').value),
      peakThrust: figure('force', worst('thrust').value),
      topShaftSpeed: figure('angularSpeed', worst('shaftSpeed').value),
      topSpeed: figure('speed', worst('vehicleSpeed').value),
      chargeLeft: figure('fraction', charge),
      energy: figure('energy', energies.batteryChemical),
      runTime: figure('time', until),
      timeToCutoff: figure('time', duration * 2.1),
      timeToReserve: figure('time', duration * 1.9),
      driveEfficiency: figure('fraction', energies.useful / energies.batteryChemical),
    },
    facts: {
      mass: motor.mass,
      canDiameter: motor.diameter,
      canLength: motor.length,
      sideArea: Math.PI * motor.diameter * motor.length,
      endArea: (Math.PI * motor.diameter ** 2) / 4,
      resistance: motor.resistance,
      torqueConstant: TORQUE_CONSTANT,
      motorConstant: TORQUE_CONSTANT / Math.sqrt(motor.resistance),
      gearRatio: 1,
      carriedBy: 'wing',
      fits: true,
    },
    end,
    trace: trace as unknown as CandidateResult['trace'],
    energy: {
      terms: energies,
      drag: energies.useful * 0.97,
      climb: 0,
      kinetic: energies.useful * 0.03,
      imposed: 0,
      jumps: 0,
      shaftFollowed: 0,
      heatMade: allLosses,
      heatStored: allLosses * 0.3,
      heatLeaves: Object.fromEntries(HEAT_WAY_IDS.map((way) => [way, (allLosses * 0.7) / HEAT_WAY_IDS.length])) as Record<HeatWay, number>,
      heatShed: allLosses * 0.7,
      residual: 3e-7,
      heatResidual: 2e-8,
      chargeResidual: -1e-8,
    },
    moment: {
      time: chart.time,
      label: 'home before the squall',
      power: chart.power,
      channels: chart.channels,
      leaves: Object.fromEntries(HEAT_WAY_IDS.map((way, k) => [way, 1 + k])) as Record<HeatWay, number>,
    },
    torqueSpeed: {
      time: chart.time,
      vehicleSpeed: chart.channels.vehicleSpeed,
      charge: chart.channels.charge,
      speed: speeds,
      lines: throttles.map((throttle) => ({
        throttle,
        torque: speeds.map(
          (speed) =>
            TORQUE_CONSTANT * ((throttle * chart.channels.busVoltage - TORQUE_CONSTANT * speed) / hotResistance - motor.noLoadCurrent),
        ),
      })),
      load: speeds.map((speed) => PROPELLER * speed ** 2),
      crossings: throttles.map(crossing),
      held: false,
    },
    findings,
    statistics: { method: 'hand model', steps: count, evaluations: count },
  };
}

function assumptionsOf(names: readonly string[]): readonly Assumption[] {
  const base = { candidates: names, source: 'common practice, no published source' } as const;
  return [
    {
      ...base,
      path: 'battery.cellResistance',
      words: 'cell resistance',
      dimension: 'resistance',
      value: 0.0026,
      low: 0.0019,
      high: 0.0034,
      kind: 'given',
      origin: 'survey-boat.yaml line 10',
      source: 'pack label; resistance from my charger',
    },
    {
      ...base,
      path: 'wiring.resistance',
      words: 'resistance of leads and connectors',
      dimension: 'resistance',
      value: 0.003,
      low: 0.0022,
      high: 0.0041,
      kind: 'derived',
      origin: '12 AWG, 30 cm, 2 connectors',
    },
    {
      ...base,
      path: 'controller.switchingTime',
      words: 'switching time of the controller',
      dimension: 'time',
      value: 1e-7,
      low: 5e-8,
      high: 2e-7,
      kind: 'default',
      origin: 'controllers of this current',
    },
    ...names.map(
      (name): Assumption => ({
        ...base,
        candidates: [name],
        path: 'motor.windingConductance',
        words: 'conductance from winding to stator',
        dimension: 'conductance',
        value: 0.78,
        low: 0.5,
        high: 1.2,
        kind: 'estimated',
        origin: '700 W/(m²·K) over the slot area',
      }),
    ),
  ];
}
