/** Generated propellers, wheels and vehicles. */
import type { Dice, Node, Section } from './dice.js';

export function propeller(d: Dice): Section {
  const water = d.kind === 'boat' || d.kind === 'bench-water';
  const usual = (water ? 0.05 : 0.22) * d.size ** 0.35;
  const diameter = d.value(usual * 0.6, usual * 1.6, { min: 0.01, max: 2 });
  const kind = d.pick(
    water
      ? ['marine-series', 'marine-series', 'coefficients', 'measured-points']
      : ['blade-element', 'blade-element', 'coefficients', 'measured-points'],
  );
  const p: Section = { diameter: `${Math.min(2, Math.max(0.01, Number(diameter.toPrecision(4))))} m`, kind };
  if (water && kind !== 'marine-series') p['medium'] = 'water';
  else if (kind !== 'marine-series') d.opt(p, 'medium', () => 'air', d.given * 0.3);
  d.opt(p, 'wake_fraction', () => d.bare(0.01, 0.3, { min: -0.5, max: 0.99 }), d.given * 0.5);
  d.opt(p, 'thrust_deduction', () => d.bare(0.01, 0.3, { min: -0.5, max: 0.99 }), d.given * 0.5);
  d.opt(p, 'shaft_efficiency', () => d.q(70, 99, '%', { above: 0, max: 100 }), d.given * 0.5);
  d.opt(p, 'inertia', () => d.q(diameter ** 4 * 0.002, diameter ** 4 * 0.05, 'kg*m2', { min: 0 }), d.given * 0.5);
  d.opt(p, 'folding', () => d.pick(['true', 'false', 'yes', 'no']), d.given * 0.4);
  if (kind === 'blade-element') bladeElement(d, p, diameter);
  else if (kind === 'marine-series') {
    d.opt(p, 'blades', () => String(d.whole(2, d.chance(d.wild) ? 7 : 5)));
    if (d.chance(0.7)) p['pitch_ratio'] = d.bare(0.5, 1.4, { min: 0.5, max: 1.4 });
    else p['pitch'] = `${Number((diameter * (0.55 + 0.8 * d.r())).toPrecision(6))} m`;
    d.opt(p, 'area_ratio', () => d.bare(0.35, 0.95, { min: 0.3, max: 1.05 }));
    d.opt(p, 'immersion', () => d.q(10, 200, 'mm', { min: 0 }), d.given * 0.5);
  } else if (kind === 'coefficients') {
    const [ct, cp] = [0.05 + 0.15 * d.r(), 0.02 + 0.12 * d.r()];
    p['table'] = d.rising(d.whole(1, 8), d.chance(0.8) ? 0 : 0.1, 1.2 * d.r() + 0.3).map((x) => ({
      advance_ratio: String(x),
      thrust: String(Number((d.chance(d.wild) ? 2 * d.r() - 1 : ct * (1 - x / 1.1)).toPrecision(4))),
      power: String(Number((d.chance(d.wild) ? 2 * d.r() - 1 : cp * (1 - (x / 1.4) ** 2)).toPrecision(4))),
    }));
    d.opt(p, 'thrust_factor', () => d.q(0.8, 1.2, ''), d.given * 0.4);
    d.opt(p, 'power_factor', () => d.q(0.8, 1.2, ''), d.given * 0.4);
  } else {
    p['points'] = points(d, diameter, water);
    if (JSON.stringify(p['points']).includes('battery_current')) p['measured_with'] = 'A';
    if (!water)
      d.opt(
        p,
        'measured_at',
        () => ({
          air: d.q(0.1, 35, '°C', { min: -60, max: 80 }),
          altitude: d.q(1, 1000, 'm', { max: 11000, tolerant: false }),
        }),
        d.given * 0.4,
      );
  }
  return p;
}

function bladeElement(d: Dice, p: Section, diameter: number): void {
  const pitch = diameter * (d.chance(d.wild) ? d.value(0.2, 2.2, { min: 0.151, max: 2.49 }) : 0.4 + 0.6 * d.r());
  d.opt(p, 'blades', () => String(d.whole(2, d.chance(d.wild) ? 12 : 4)));
  d.opt(p, 'family', () => d.pick(['thin', 'broad', 'stout', 'folding']), 0.6);
  const radii = d.chance(d.given * 0.3) ? d.rising(d.whole(4, 9), 0.15, 1) : [];
  if (d.chance(d.given * 0.15)) p['points'] = points(d, diameter, false);
  if (radii.length < 3 || d.chance(0.4)) p['pitch'] = `${Number(pitch.toPrecision(4))} m`;
  if (radii.length >= 3)
    p['stations'] = radii.map((x) => {
      const twist = (180 / Math.PI) * Math.atan(pitch / (Math.PI * diameter * x)) * (d.chance(d.wild) ? 3 * d.r() - 1 : 1);
      return {
        radius: String(x),
        chord: String(Number((0.05 + 0.25 * d.r()).toPrecision(3))),
        twist: `${Number(twist.toPrecision(4))} °`,
      };
    });
}

function points(d: Dice, diameter: number, water: boolean): Node[] {
  const rho = water ? 1000 : 1.2;
  const [ct, cp] = [0.05 + 0.12 * d.r(), 0.03 + 0.1 * d.r()];
  const way = d.pick(['torque', 'shaft_power', 'thrust', 'both', 'both', 'read']);
  return Array.from({ length: d.whole(1, 6) }, () => {
    const n = (20 + 150 * d.r()) * (0.2 / diameter) * (water ? 0.3 : 1);
    const f = d.chance(d.wild) ? 10 ** (4 * d.r() - 2) : 0.95 + 0.1 * d.r();
    const point: Section = { shaft_speed: `${(n * 60).toPrecision(5)} rpm` };
    if (way === 'thrust' || way === 'both') point['thrust'] = `${(ct * rho * n * n * diameter ** 4 * f).toPrecision(5)} N`;
    if (way === 'torque' || way === 'both')
      point['torque'] = `${((cp * rho * n * n * diameter ** 5 * f) / (2 * Math.PI)).toPrecision(5)} N·m`;
    if (way === 'shaft_power') point['shaft_power'] = `${(cp * rho * n ** 3 * diameter ** 5 * f).toPrecision(5)} W`;
    if (way === 'read') {
      const power = cp * rho * n ** 3 * diameter ** 5 * f;
      point['battery_current'] = `${((1.4 * power) / d.volts).toPrecision(4)} A`;
      point['voltage'] = `${(d.volts * (0.9 + 0.1 * d.r())).toPrecision(4)} V`;
      d.opt(point, 'throttle', () => d.q(40, 100, '%', { above: 0, max: 100 }));
    }
    if (d.chance(d.given * 0.3)) point['vehicle_speed'] = d.q(0.5, 0.4 * n * diameter + 0.6, 'm/s', { min: 0, tolerant: false });
    return point;
  });
}

export function wheel(d: Dice): Section {
  const radius = 0.04 * Math.max(0.3, d.size ** 0.4);
  const w: Section = { radius: d.q(radius * 500, radius * 2000, 'mm') };
  d.opt(w, 'rolling_resistance', () => d.q(0.01, 0.1, '', { min: 0 }), 0.7);
  d.opt(w, 'drag_area', () => d.q(0.01 * d.size, 0.06 * d.size, 'm2', { min: 0 }), 0.6);
  d.opt(w, 'grip', () => d.q(0.3, 1.4, ''));
  d.opt(w, 'driven_share', () => d.q(40, 100, '%', { above: 0, max: 100 }), d.given * 0.5);
  d.opt(w, 'inertia', () => d.q(1e-5 * d.size, 1e-3 * d.size, 'kg*m2', { min: 0 }), d.given * 0.5);
  return w;
}

export function vehicle(d: Dice): Section {
  const { size } = d;
  const v: Section = { mass: d.q(0.5 * size, 12 * size, 'kg') };
  if (d.kind === 'boat' || d.kind === 'boat-air') {
    d.speed = 2 + 6 * d.r();
    d.opt(v, 'added_mass', () => d.q(0.5, 20, '%', { min: 0, max: 200 }), d.given * 0.5);
    const at = d.chance(0.7) ? d.rising(d.whole(1, 6), d.chance(0.5) ? 0 : 0.5, d.speed * 1.3) : [];
    const force = 2.5 * size * (0.3 + d.r());
    if (at.length > 0)
      v['drag'] = at.map((s) => ({
        speed: `${s} m/s`,
        force: `${Number((force * s ** 1.6 * (d.chance(d.wild) ? 3 * d.r() : 1)).toPrecision(4))} N`,
      }));
    else v['drag_area'] = d.q(0.002 * size, 0.05 * size, 'm2', { min: 0 });
    d.opt(v, 'drag_factor', () => d.q(0.7, 1.3, ''), d.given * 0.4);
  } else if (d.kind === 'aircraft') {
    const wing: Section = { area: d.q(0.15 * size ** 0.7, 0.7 * size ** 0.7, 'm2'), aspect_ratio: d.q(4, 20, '') };
    d.opt(wing, 'span_efficiency', () => d.bare(0.6, 0.95, { above: 0, max: 1.2 }));
    d.opt(wing, 'zero_lift_drag', () => d.q(0.012, 0.08, ''));
    d.opt(wing, 'most_lift', () => d.q(0.8, 1.8, ''));
    v['mass'] = d.q(0.4 * size, 3 * size, 'kg');
    v['wing'] = wing;
    d.speed = 8 + 18 * d.r();
  } else {
    d.speed = 3 + 15 * d.r();
    d.opt(v, 'drag_factor', () => d.q(0.7, 1.3, ''), d.given * 0.3);
  }
  return v;
}
