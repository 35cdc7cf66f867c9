/** Whole drives: heat networks and runs by code written apart, motors identified on printed and measured points, what half a sheet is worth on a bench. @module */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { runScenario } from '@shaftwork/sim-core/run-scenario';
import { DEMOS, demo } from '../../demo.js';
import { boatByNetwork, boatByRungeKutta, outrunnerByNetwork } from '../by-runge-kutta.js';
import { standingRises } from '../given-heat.js';
import { identifiedKv, identifiedResistance, lowEndOfKv } from '../identify-catalogue.js';
import { foretoldPower, STAND_MOTORS } from '../identify-thrust-stand.js';
import { type ByTwin, demosByTwin, everyKeyByTwin, screwFromPolynomials } from '../plain-twin.js';
import { insideBands } from '../thrust-stand-bands.js';
import { type Allowed, amount, amountBetween, type Check, type Point, share, shareBetween, shared, type Topic } from './check.js';

const byRungeKutta = shared(boatByRungeKutta);
const demos = shared(demosByTwin);
const everyKey = shared(everyKeyByTwin);
const polynomials = shared(screwFromPolynomials);
const byTwin = (what: string, of: keyof ByTwin, twin: () => ByTwin): Check => ({
  standing: 'code',
  source: 'a drive written a second time, by Runge–Kutta in even steps, no shared code (test/twin)',
  what,
  ...(of === 'bodies' ? { unit: 'K', allowed: amount(0.02) } : { allowed: amount(1e-5) }),
  points: () => twin()[of],
});

const ROOM = 293.15;
/** At the moment of most motor current: torque, speed and winding temperature from the run, the rest with what the sheet says and magnets weaker by 0.12 %/K. */
const demosByHand = shared(() =>
  DEMOS.flatMap((name) => {
    const prepared = demo(name);
    const result = runScenario(prepared);
    return result.candidates.map((candidate) => {
      const { motor } = realise(prepared.candidates.find((each) => each.name === candidate.name)?.data ?? prepared.candidates[0].data);
      const { channels } = candidate.moment;
      const k = motor.torqueConstant * (1 - 0.0012 * (channels.magnetTemperature - ROOM));
      const noLoad = (motor.hysteresisTorque + motor.frictionTorque + motor.eddyTorque * channels.shaftSpeed) / k;
      const torque = channels.shaftPower / channels.shaftSpeed;
      const current = torque / k + noLoad;
      const copper = current ** 2 * motor.resistance * (1 + 0.00393 * (channels.windingTemperature - ROOM));
      const input = channels.shaftPower + copper + noLoad * channels.shaftSpeed * k;
      const at = `${name}, ${candidate.name}, magnets at ${(channels.magnetTemperature - 273.15).toFixed(0)} °C`;
      return {
        current: { at, theirs: current, ours: channels.motorCurrent },
        input: { at, theirs: input, ours: channels.inputPower },
      };
    });
  }),
);
const byHand = (what: string, unit: string, allowed: Allowed, of: 'current' | 'input'): Check => ({
  standing: 'theory',
  source: 'by hand: i = (M + M_loss)/k, k less by 0.12 %/K of the magnets; copper loss i²·R·(1 + 0.00393·(T − 20 °C))',
  what,
  unit,
  allowed,
  points: () => demosByHand().map((each): Point => each[of]),
});

const MAXON = 'maxon catalogue pages: speed–torque lines of RE 35, RE 25, EC 13 at 6 and 12 V';
const STRAWSON = 'StrawsonDesign, motor_propeller_testing, raw data, MIT licence';

export const DRIVES: Topic = {
  title: 'Whole drives',
  checks: [
    {
      standing: 'theory',
      source: 'resistances in series, copper’s own feedback solved for',
      what: 'steady rise of a winding under 4 A, heat data given',
      unit: 'K',
      allowed: share(1e-6),
      points: standingRises,
    },
    {
      standing: 'code',
      source: 'a network written apart, by ode-rk4',
      what: 'bodies of an inrunner with jacket, flange and plate after 200 s',
      unit: 'K',
      allowed: amount(1e-3),
      points: boatByNetwork,
    },
    {
      standing: 'code',
      source: 'a network written apart, by ode-rk4',
      what: 'bodies of an outrunner whose ways were given, on a plate in its slipstream, after 180 s',
      unit: 'K',
      allowed: amount(1e-3),
      points: outrunnerByNetwork,
    },
    {
      standing: 'code',
      source: 'ode-rk4 at 10 ms over the program’s own right-hand side',
      what: 'bodies of the survey boat after two minutes and a sprint',
      unit: 'K',
      allowed: amount(1e-4),
      points: () => byRungeKutta().bodies,
    },
    {
      standing: 'code',
      source: 'ode-rk4 at 10 ms over the program’s own right-hand side',
      what: 'its charge',
      allowed: amount(1e-8),
      points: () => byRungeKutta().charge,
    },
    byTwin('bodies of every demo’s and starter’s candidates at every step’s end', 'bodies', demos),
    byTwin('their charge', 'charge', demos),
    byTwin('bodies of drives that have every key between them, each part and way of cooling, each hold', 'bodies', everyKey),
    byTwin('the charge of those', 'charge', everyKey),
    byTwin('bodies of a boat whose screw is given by polynomials', 'bodies', polynomials),
    byTwin('its charge under them', 'charge', polynomials),
    byHand('greatest motor current of every demo’s candidates', 'A', share(0.005), 'current'),
    byHand('motor input at that moment, which holds the ripple’s loss besides', 'W', shareBetween(-0.005, 0.025), 'input'),
    {
      standing: 'printed',
      source: MAXON,
      what: 'Kv identified on points of the printed line',
      unit: 'rpm/V',
      allowed: share(0.015),
      points: identifiedKv,
    },
    {
      standing: 'printed',
      source: MAXON,
      what: 'resistance identified on them',
      unit: 'Ω',
      allowed: share(0.06),
      points: identifiedResistance,
    },
    {
      standing: 'printed',
      source: MAXON,
      what: 'lower end of the interval of that Kv: not above the printed one by more than its digits',
      unit: 'rpm/V',
      allowed: shareBetween(Number.NEGATIVE_INFINITY, 1 / 0.985 - 1),
      points: lowEndOfKv,
    },
    ...STAND_MOTORS.map(
      (motor): Check => ({
        standing: 'measured',
        source: STRAWSON,
        what: `power of motor ${motor}, identified on two propellers at 11.1 V, with the rest; of full power`,
        unit: '%',
        allowed: amount(5),
        least: 51,
        points: () => foretoldPower(motor),
      }),
    ),
    {
      standing: 'measured',
      source: STRAWSON,
      what: 'rows at full throttle inside the 5–95 % band, label and size alone: four fifths and more',
      unit: '%',
      allowed: amountBetween(-20 - 1e-9, Number.POSITIVE_INFINITY),
      points: insideBands,
    },
  ],
};
