/** Heat data that cannot be together are told with their place, what to do, and all at once. */
import { rippleLoss } from '@shaftwork/sim-core/parts/controller';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const HEAD = `title: t
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 1 min, throttle: 50 % }]
`;
const motor = (more: string, layout = 'inrunner'): string =>
  `candidates:\n  - name: A\n    motor: { layout: ${layout}, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm }${more} }\n`;

function problems(text: string) {
  const preparation = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
  if (preparation.kind === 'needs') throw new Error('needs files');
  return preparation.kind === 'ready' ? [] : preparation.problems;
}
const told = (text: string): string =>
  problems(text)
    .map(({ expected, found }) => `${expected} | ${found}`)
    .join('\n');

describe('heat data', () => {
  it('are right as they are', () => expect(told(HEAD + motor(''))).toBe(''));

  it.each([
    [
      'a jacket on a bell',
      'cooling: { water_jacket: { conductance: 1 W/K, at_speed: 3 m/s } }\nambient: { water: 15 degC }\n',
      motor('', 'outrunner'),
      'turning bell',
    ],
    [
      'a sink on a bell',
      'cooling: { heat_sink: { fins: 5, fin_height: 5 mm, fin_thickness: 1 mm, length: 20 mm, breadth: 20 mm } }\n',
      motor('', 'outrunner'),
      'turning bell',
    ],
    [
      'a jacket without water',
      'cooling: { water_jacket: { conductance: 1 W/K, at_speed: 3 m/s } }\n',
      motor(''),
      'temperature of the cooling water',
    ],
    [
      'a jacket in the air',
      'vehicle: { mass: 1 kg, wing: { area: 0.3 m2, aspect_ratio: 7 } }\ncooling: { water_jacket: { conductance: 1 W/K, at_speed: 3 m/s } }\n',
      motor(''),
      'without water',
    ],
    [
      'a limit below the air',
      'limits: { winding: 20 degC }\nambient: { air: 24 degC }\n',
      motor(''),
      'above the temperature they start at',
    ],
    ['a winding that takes an hour', '', motor(', thermal: { winding_to_stator: 0.001 W/K }'), 'follows its iron'],
    [
      'capacities beyond the mass',
      '',
      motor(', thermal: { winding_capacity: 400 J/K, winding_to_stator: 1 W/K }'),
      'heat capacities of a motor of',
    ],
    [
      'fins without spacing',
      'cooling: { heat_sink: { fins: 30, fin_height: 5 mm, fin_thickness: 1 mm, length: 20 mm, breadth: 20 mm } }\n',
      motor(''),
      'leave spacing',
    ],
    [
      'a given can_to_air beside an air speed',
      'cooling: { air: { speed: 5 m/s } }\n',
      motor(', thermal: { can_to_air: 0.3 W/K }'),
      'can_to_air or cooling.air',
    ],
    [
      'jacket and coil',
      'ambient: { water: 15 degC }\ncooling: { water_jacket: { conductance: 1 W/K, at_speed: 3 m/s }, water_coil: { bore: 3 mm, length: 50 cm } }\n',
      motor(''),
      'water_jacket or water_coil',
    ],
    [
      'a printed way beside one that it holds',
      '',
      motor(', thermal: { winding_to_housing: 3 K/W, winding_to_stator: 1 W/K }'),
      'winding_to_housing or winding_to_stator',
    ],
    [
      'a printed way beside the whole one of the can',
      '',
      motor(', thermal: { housing_to_ambient: 9 K/W, can_to_air: 0.1 W/K }'),
      'housing_to_ambient or can_to_air',
    ],
    [
      'a mount beside the whole way from an inrunner’s can',
      'cooling: { mount: { plate: 5 cm2 } }\n',
      motor(', thermal: { can_to_air: 0.3 W/K }'),
      'can_to_air or cooling.mount',
    ],
    ['a mount given twice', 'cooling: { mount: { plate: 5 cm2, conductance: 0.2 W/K } }\n', motor(''), 'cooling.mount.plate'],
    [
      'a plate larger than the space',
      'cooling: { mount: { plate: 200 cm2 } }\nspace: { diameter: 50 mm, length: 90 mm }\n',
      motor(''),
      'fits in the space',
    ],
    [
      'air that a shaft moves in an inrunner',
      '',
      motor(', thermal: { stator_to_air: { conductance: 0.4 W/K, at_speed: 9000 rpm } }'),
      'the can does not turn',
    ],
    ['a speed without its conductance', '', motor(', thermal: { stator_to_air: { at_speed: 9000 rpm } }', 'outrunner'), 'a speed alone'],
    ['a derating without a limit', 'controller: { derating: { from: 90 degC, to: 110 degC } }\n', motor(''), 'derating'],
    [
      'a derating upside down',
      'controller: { motor_current_limit: 40 A, derating: { from: 110 degC, to: 90 degC } }\n',
      motor(''),
      'derating',
    ],
  ])('%s', (_, sections, candidate, words) => {
    const found = problems(HEAD + sections + candidate);
    expect(found.length).toBeGreaterThan(0);
    expect(found.map(({ expected, found: what }) => `${expected} | ${what}`).join('\n')).toContain(words);
    for (const each of found) {
      expect(each.hint).toBeDefined();
      expect(each.place.line).toBeGreaterThan(0);
    }
  });

  it('of a sink and of a coil reach the network', () => {
    const text = `${HEAD}ambient: { water: 15 degC }\ncooling: { water_coil: { bore: 3 mm, length: 50 cm }, heat_sink: { fins: 5, fin_height: 5 mm, fin_thickness: 1 mm, length: 20 mm, breadth: 20 mm, coverage: 50 % } }\n${motor('')}`;
    const preparation = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
    if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
    const { heat } = preparation.prepared.candidates[0].data;
    expect(heat.coil?.contact.value).toBeCloseTo(2.5, 9);
    expect(heat.sink?.fins.conductivity.value).toBe(200);
    expect(heat.sideArea.value * (1 - heat.sideCovered.value)).toBeCloseTo(0.5 * Math.PI * 0.027 * 0.032, 9);
  });

  it('of a controller: a voltage loss is told at half throttle and the nominal voltage of the pack', () => {
    const text = `${HEAD}controller: { voltage_loss: 0.5 W }\n${motor('')}`;
    const preparation = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
    if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
    const { controller, motor: made } = realise(preparation.prepared.candidates[0].data);
    expect(rippleLoss(controller.rippleConstant / made.inductance, 11.1, 0.5)).toBeCloseTo(0.5, 12);
    expect(controller.rippleInMotor).toBe(0);
  });
});
