/**
 * The demo boat written a second time, plainly and apart from the product: explicit Euler on the realised system as JSON, no code shared.
 * Formulas from the same published sources, typed anew. Used by one test only.
 */
// biome-ignore lint/suspicious/noExplicitAny: the twin takes bare JSON, on purpose without the product's types
type Numbers = { [key: string]: any };

const pchip = (x: number[], y: number[], m: number[], at: number): number => {
  let k = 0;
  while (k < x.length - 2 && at >= x[k + 1]) k++;
  const h = x[k + 1] - x[k];
  const u = (at - x[k]) / h;
  const a = (1 + 2 * u) * (1 - u) ** 2;
  const b = u * (1 - u) ** 2;
  const c = u * u * (3 - 2 * u);
  const d = u * u * (u - 1);
  return a * y[k] + b * h * m[k] + c * y[k + 1] + d * h * m[k + 1];
};

/** Handbook convection and radiation of a still can in still air [W]. */
export function canLoss(heat: Numbers, can: number, air: number, pressure: number): number {
  const film = (can + air) / 2;
  const mu = (1.458e-6 * film ** 1.5) / (film + 110.4);
  const k = (2.648151e-3 * film ** 1.5) / (film + 245.4 * 10 ** (-12 / film));
  const cp = 1034.09 - 0.284887 * film + 7.816818e-4 * film ** 2 - 4.970786e-7 * film ** 3 + 1.077024e-10 * film ** 4;
  const nu = (mu * 287.05287 * film) / pressure;
  const pr = (mu * cp) / k;
  const ra = (9.80665 * Math.abs(can - air) * heat.canDiameter ** 3 * pr) / (film * nu * nu);
  const side = (0.6 + (0.387 * ra ** (1 / 6)) / (1 + (0.559 / pr) ** (9 / 16)) ** (8 / 27)) ** 2;
  const end = (0.825 + (0.387 * ra ** (1 / 6)) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2;
  const convected = ((side * heat.sideArea + end * heat.endArea) * k) / heat.canDiameter;
  const radiated = heat.emissivity * 5.670374419e-8 * (heat.sideArea + heat.endArea) * (can ** 4 - air ** 4);
  return heat.convectionFactor * convected * (can - air) + radiated;
}

/** Heat of a flange and the still plate behind it [W]: natural convection on a plate as long as the root of one face, radiation, joint in series. */
export function mountLoss(heat: Numbers, body: number, air: number, pressure: number): number {
  const film = (body + air) / 2;
  const mu = (1.458e-6 * film ** 1.5) / (film + 110.4);
  const k = (2.648151e-3 * film ** 1.5) / (film + 245.4 * 10 ** (-12 / film));
  const cp = 1034.09 - 0.284887 * film + 7.816818e-4 * film ** 2 - 4.970786e-7 * film ** 3 + 1.077024e-10 * film ** 4;
  const nu = (mu * 287.05287 * film) / pressure;
  const pr = (mu * cp) / k;
  const edge = (heat.mount.area / 2) ** 0.5;
  const ra = (9.80665 * Math.abs(body - air) * edge ** 3 * pr) / (film * nu * nu);
  const plate = (0.825 + (0.387 * ra ** (1 / 6)) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2;
  const radiated = heat.mount.emissivity * 5.670374419e-8 * (body + air) * (body ** 2 + air ** 2);
  return (body - air) / (1 / heat.toMount + 1 / (((plate * k) / edge + radiated) * heat.mount.area));
}

export interface TwinRow {
  t: number;
  winding: number;
  stator: number;
  can: number;
  magnets: number;
  controller: number;
  cells: number;
  charge: number;
}

/** Runs the profile; steps of 1 ms to 300 s, then 5 ms. Returns a row every 20 s and the last. */
export function plainBoat(s: Numbers, profile: Numbers[]): TwinRow[] {
  const { motor, battery, controller, heat, load, vehicle, surroundings } = s;
  const ocv = (q: number): number => -1.031 * Math.exp(-35 * q) + 3.685 + 0.2156 * q - 0.1178 * q * q + 0.3201 * q ** 3;
  const table = load.table;
  // a closed hull: still air, whose convection goes with the square root of its density
  const bay = (convection: number): number => 1 - convection + convection * Math.sqrt(surroundings.airPressure / 101325);
  let [tw, ts, tc, tm, tk, tb] = [0, 0, 0, 0, 0, 0].map(() => s.start.motorTemperature as number);
  let q: number = s.start.charge;
  let v1 = 0;
  let v = 0;
  let t = 0;
  let w = 500;
  const rows: TwinRow[] = [];
  let next = 0;
  for (const step of profile) {
    const end = t + step.duration;
    const begun = t;
    while (t < end - 1e-9) {
      if (t >= next - 1e-9) {
        rows.push({ t, winding: tw, stator: ts, can: tc, magnets: tm, controller: tk, cells: tb, charge: q });
        next += 20;
      }
      const dt = Math.min(t < 300 ? 1e-3 : 5e-3, end - t);
      const kin = Math.exp(battery.activation * (1 / tb - 1 / 298.15));
      const nearEmpty = Math.exp(-q / battery.emptyRiseWidth) - Math.exp(-1 / (2 * battery.emptyRiseWidth));
      const f = (1 - battery.activatedShare + battery.activatedShare * kin) * (1 + battery.emptyRise * nearEmpty);
      // the surface lags behind the mean by the current through the slow part's resistor
      const lag = (battery.surfaceLag * kin * (v1 / (battery.polarisationResistance * f))) / battery.capacity;
      const emf = battery.cellsInSeries * (ocv(q - lag) - v1);
      const rb = battery.cellsInSeries * battery.cellResistance * f + s.wiring.resistance;
      const rw = motor.resistance * (1 + motor.resistanceCoefficient * (tw - 293.15));
      const rp = controller.pathResistance * (1 + controller.resistanceCoefficient * (tk - 298.15));
      const flux = 1 + motor.fluxCoefficient * (tm - 293.15);
      const kt = motor.torqueConstant * flux;
      const lost = (x: number): number => (motor.hysteresisTorque + motor.eddyTorque * x) * flux * flux + motor.frictionTorque;
      const dead = controller.deadTimeDrop * controller.deadTime * controller.pwmFrequency;
      // a commutation's short circuit, and what the current's ripple loses
      const short = (x: number): number => ((3 / (2 * Math.PI)) * motor.polePairs * x * motor.inductance) as number;
      const kappa: number = controller.rippleConstant;
      const ks0 = 0.5 * controller.switchingTime * controller.pwmFrequency;
      if (step.hold === 'vehicleSpeed') v = step.value.from;
      const va = v * (1 - load.wakeFraction);
      const screw = (x: number): [number, number] => {
        const n = x / (2 * Math.PI);
        const j = va / (n * load.diameter);
        const ct = pchip(table.advanceRatio, table.thrust, table.thrustSlope, j);
        const cp = pchip(table.advanceRatio, table.power, table.powerSlope, j);
        return [
          load.thrustFactor * ct * load.density * n * n * load.diameter ** 4,
          (load.powerFactor * cp * load.density * n * n * load.diameter ** 5) / (2 * Math.PI),
        ];
      };
      let i: number;
      let ib: number;
      let vb: number;
      let duty: number;
      const force = vehicle.dragFactor * pchip(vehicle.dragTable.speed, vehicle.dragTable.force, vehicle.dragTable.slope, v);
      let thrust: number;
      if (step.hold === 'vehicleSpeed') {
        const wanted = force / (1 - load.thrustDeduction);
        let [lo, hi] = [0.7 * w, 1.4 * w];
        for (let k = 0; k < 60; k++) {
          const mid = 0.5 * (lo + hi);
          if (screw(mid)[0] < wanted) lo = mid;
          else hi = mid;
        }
        w = 0.5 * (lo + hi);
        const [th, torque] = screw(w);
        thrust = th;
        i = (torque / load.shaftEfficiency + lost(w)) / kt;
        duty = 0.5;
        const power = i * ((rw + rp) * i + kt * w + dead);
        // bus by repeated substitution
        vb = emf;
        ib = 0;
        for (let k = 0; k < 30; k++) {
          duty = (power / i + short(w) * i) / vb;
          ib = power / vb + ks0 * i + controller.idleCurrent + (kappa / motor.inductance) * (duty * (1 - duty)) ** 2 * vb;
          vb = emf - rb * ib;
        }
      } else {
        const d = step.value.from + ((step.value.to - step.value.from) * (t - begun)) / step.duration;
        duty = d;
        const kr = (kappa / motor.inductance) * (d * (1 - d)) ** 2;
        const solve = (x: number): [number, number, number] => {
          const e = kt * x + dead;
          // d v = (R + X) i + e gives v = p i + q; in v (E − v) = R_b (R i² + e i + k_s v i + idle v + k_r v²) a quadratic in i
          const p = (rw + rp + short(x)) / d;
          const q = e / d;
          const two = -p * p - rb * (rw + rp + ks0 * p + kr * p * p);
          const one = emf * p - 2 * p * q - rb * (e + ks0 * q + controller.idleCurrent * p + 2 * kr * p * q);
          const none = emf * q - q * q - rb * (controller.idleCurrent * q + kr * q * q);
          const current = (-one - Math.sqrt(one * one - 4 * two * none)) / (2 * two);
          const bus = p * current + q;
          return [current, bus, (emf - bus) / rb];
        };
        const miss = (x: number): number => kt * solve(x)[0] - lost(x) - screw(x)[1] / load.shaftEfficiency;
        let [lo, hi] = [0.5 * w, 2 * w];
        for (let k = 0; k < 55; k++) {
          const mid = 0.5 * (lo + hi);
          if (miss(mid) > 0) lo = mid;
          else hi = mid;
        }
        w = 0.5 * (lo + hi);
        [i, vb, ib] = solve(w);
        thrust = screw(w)[0];
      }
      const iron = (motor.hysteresisTorque + motor.eddyTorque * w) * flux * flux * w;
      const jacket = heat.jacket.conductance * (heat.jacket.restShare + (1 - heat.jacket.restShare) * (v / heat.jacket.speed) ** 0.6);
      const ws = heat.windingToStator * (tw - ts);
      const sc = heat.statorToCan * (ts - tc);
      const sm = heat.statorToMagnets * (ts - tm);
      const mc = heat.magnetsToCan * (tm - tc);
      const air = surroundings.motorAirTemperature;
      const gone =
        canLoss(heat, tc, air, surroundings.airPressure) +
        mountLoss(heat, tc, air, surroundings.airPressure) +
        jacket * (tc - surroundings.waterTemperature);
      const ripple = (kappa / motor.inductance) * (vb * duty * (1 - duty)) ** 2;
      const loss = i * i * rp + (ks0 * vb + dead) * i + (1 - controller.rippleInMotor) * ripple + controller.idleCurrent * vb;
      const r1 = battery.polarisationResistance * f;
      const warm = battery.cellsInSeries * (battery.cellResistance * f * ib * ib + (v1 * v1) / r1);
      const c = heat.capacity;
      tw += (dt * (i * i * rw - ws)) / c.winding;
      ts += (dt * (iron * (1 - motor.magnetLossShare) + controller.rippleInMotor * ripple + ws - sc - sm)) / c.stator;
      tc += (dt * (motor.frictionTorque * w + sc + mc - gone)) / c.can;
      tm += (dt * (iron * motor.magnetLossShare + sm - mc)) / c.magnets;
      tk +=
        (dt * (loss - heat.controllerToAir * bay(heat.controllerConvection) * (tk - surroundings.compartmentTemperature))) / c.controller;
      tb += (dt * (warm - heat.cellsToAir * bay(heat.cellsConvection) * (tb - surroundings.compartmentTemperature))) / c.cells;
      q -= (dt * ib) / battery.capacity;
      v1 += (dt * (r1 * ib - v1)) / battery.polarisationTime;
      if (step.hold !== 'vehicleSpeed')
        v += (dt * (thrust * (1 - load.thrustDeduction) - force)) / (vehicle.mass * (1 + vehicle.addedMass));
      t += dt;
    }
    t = end;
  }
  rows.push({ t, winding: tw, stator: ts, can: tc, magnets: tm, controller: tk, cells: tb, charge: q });
  return rows;
}
