/**
 * Heat of one drive, written a second time, plainly and apart from the product: the handbooks' laws typed anew, no code shared. Temperatures
 * [K] in the order winding, stator, can, magnets, controller, cells. Used by the twin of a whole drive alone.
 */
// biome-ignore lint/suspicious/noExplicitAny: the twin takes bare numbers, on purpose without the product's types
export type Numbers = { readonly [key: string]: any };

/** Air by ISO 2533 and the polynomial of Irvine and Liley for its heat: viscosity [m²/s], conductivity [W/(m·K)], Prandtl number. */
function airAt(film: number, pressure: number): { nu: number; k: number; pr: number } {
  const mu = (1.458e-6 * film ** 1.5) / (film + 110.4);
  const k = (2.648151e-3 * film ** 1.5) / (film + 245.4 * 10 ** (-12 / film));
  const cp = 1034.09 - 0.284887 * film + 7.816818e-4 * film ** 2 - 4.970786e-7 * film ** 3 + 1.077024e-10 * film ** 4;
  return { nu: (mu * 287.05287 * film) / pressure, k, pr: (mu * cp) / k };
}
const cubes = (...h: number[]): number => h.reduce((sum, each) => sum + each ** 3, 0) ** (1 / 3);
const radiated = (emissivity: number, a: number, b: number): number => emissivity * 5.670374419e-8 * (a ** 4 - b ** 4);

/** Nusselt numbers: a hot upright plate, a lying cylinder, a plate in a disturbed stream, a turning cylinder, a turning disc on its diameter. */
const plate = (ra: number, pr: number): number => (0.825 + (0.387 * ra ** (1 / 6)) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2;
const cylinder = (ra: number, pr: number): number => (0.6 + (0.387 * ra ** (1 / 6)) / (1 + (0.559 / pr) ** (9 / 16)) ** (8 / 27)) ** 2;
const laminar = (re: number, pr: number): number => 0.664 * re ** 0.5 * pr ** (1 / 3);
const stream = (re: number, pr: number): number => Math.hypot(laminar(re, pr), 0.037 * re ** 0.8 * pr ** (1 / 3));
function disc(re: number, pr: number): number {
  const k = 0.326 * (pr / 0.71) ** 0.59;
  if (re <= 250000) return 2 * k * re ** 0.5;
  const inner = 250000 / re;
  return 2 * (k * re ** 0.5 * inner + 0.015 * re ** 0.8 * (1 - inner ** 1.3));
}

/** Heat that the can gives off by its side and its ends [W]. */
export function canLoss(heat: Numbers, can: number, air: number, pressure: number, wind: number, spin: number): number {
  const { nu, k, pr } = airAt((can + air) / 2, pressure);
  const d = heat.canDiameter;
  const ra = (9.80665 * Math.abs(can - air) * d ** 3 * pr) / (((can + air) / 2) * nu * nu);
  const open = Math.max(0, heat.openness);
  const along = (stream((wind * heat.canLength) / nu, pr) * d) / heat.canLength;
  const turning = 0.133 * ((spin * open ** 1.5 * d * d) / nu) ** (2 / 3) * pr ** (1 / 3);
  const side = (cubes(cylinder(ra, pr), along, turning) * k) / d;
  const end = (cubes(plate(ra, pr), stream((wind * d) / nu, pr), disc((spin * open ** 2 * d * d) / 4 / nu, pr)) * k) / d;
  const sideArea = heat.sideArea * (1 - heat.sideCovered);
  return (
    (sideArea * side + heat.endArea * end) * heat.convectionFactor * (can - air) +
    (sideArea + heat.endArea) * radiated(heat.emissivity, can, air)
  );
}

/** Heat of what the motor is bolted to [W]: the joint, then a plate as long as the root of one of its faces. */
export function mountLoss(heat: Numbers, body: number, air: number, pressure: number, wind: number): number {
  if (heat.mount === undefined || heat.toMount === 0) return heat.toMount * (body - air);
  const film = (body + air) / 2;
  const { nu, k, pr } = airAt(film, pressure);
  const edge = (heat.mount.area / 2) ** 0.5;
  const ra = (9.80665 * Math.abs(body - air) * edge ** 3 * pr) / (film * nu * nu);
  const h = (cubes(plate(ra, pr), laminar((wind * edge) / nu, pr)) * k) / edge;
  const shine = heat.mount.emissivity * 5.670374419e-8 * (body + air) * (body ** 2 + air ** 2);
  return (body - air) / (1 / heat.toMount + 1 / ((h + shine) * heat.mount.area));
}

/** Heat that fins on a base give off [W]: channels between them and a stream along them, efficiency of straight fins, joint in series. */
function sinkLoss({ fins, contact }: Numbers, base: number, air: number, pressure: number, wind: number): number {
  const { nu, k, pr } = airAt((base + air) / 2, pressure);
  const gap = (fins.breadth - fins.fins * fins.finThickness) / (fins.fins - 1);
  const ra = (9.80665 * Math.abs(base - air) * gap ** 4 * pr) / (((base + air) / 2) * nu * nu * fins.length);
  const channel = ra === 0 ? 0 : (576 / ra ** 2 + 2.87 / ra ** 0.5) ** -0.5;
  const cold = airAt(air, pressure);
  const blown = (stream((wind * fins.length) / cold.nu, cold.pr) * cold.k) / fins.length;
  const h = cubes((channel * k) / gap, blown);
  const height = fins.finHeight + fins.finThickness / 2;
  const ml = height * ((2 * h) / (fins.conductivity * fins.finThickness)) ** 0.5;
  const area = fins.fins * 2 * fins.length * height * (ml === 0 ? 1 : Math.tanh(ml) / ml) + gap * (fins.fins - 1) * fins.length;
  return h === 0 ? 0 : (base - air) / (1 / contact + 1 / (h * area));
}

/** Conductance to the water in a tube round the motor [W/K]: Gnielinski, viscosity and conductivity of fresh water by IAPWS SR6-08. */
function coilConductance(coil: Numbers, water: number, boat: number): number {
  const speed = coil.pumpSpeed + coil.speedShare * boat;
  if (speed === 0) return 0;
  const x = water / 300;
  const mu = 1e-6 * (280.68 * x ** -1.9 + 511.45 * x ** -7.7 + 61.131 * x ** -19.6 + 0.45903 * x ** -40);
  const k = 1.663 * x ** -1.15 - 1.7781 * x ** -3.4 + 1.1567 * x ** -6 - 0.432115 * x ** -7.6;
  // of fresh water at 14 °C, from memory of the same tables
  const [density, specific] = [999.25, 4188];
  const pr = (mu * specific) / k;
  const re = (density * speed * coil.bore) / mu;
  const gnielinski = (r: number): number => {
    const f = (0.79 * Math.log(r) - 1.64) ** -2;
    return ((f / 8) * (r - 1000) * pr) / (1 + 12.7 * (f / 8) ** 0.5 * (pr ** (2 / 3) - 1));
  };
  const share = Math.min(1, Math.max(0, (re - 2300) / 1700));
  const nusselt = re >= 4000 ? gnielinski(re) : (1 - share) * 3.66 + share * gnielinski(4000);
  const carried = ((density * speed * Math.PI * coil.bore ** 2) / 4) * specific;
  const wall = carried * (1 - Math.exp((-nusselt * k * Math.PI * coil.length) / carried));
  return 1 / (1 / coil.contact + 1 / wall);
}

/** What moves air and water: motor shaft [rad/s], vehicle and air at the motor [m/s]. */
export interface Motion {
  readonly shaft: number;
  readonly vehicle: number;
  readonly wind: number;
}

/** Net heat into each body [W], `loss` being what is made in it [W]. Bodies that an endless conductance joins share theirs in `ratesOf`. */
export function netHeat(heat: Numbers, around: Numbers, T: readonly number[], loss: readonly number[], motion: Motion): number[] {
  const [winding = 0, stator = 0, can = 0, magnets = 0, controller = 0, cells = 0] = T;
  const { motorAirTemperature: air, airPressure: pressure, waterTemperature: water, compartmentTemperature: bay } = around;
  const outrunner = heat.layout === 'outrunner';
  const wind = motion.wind;
  const net = [...loss];
  const pass = (from: number, to: number, conductance: number): void => {
    if (conductance === Infinity) return;
    const flow = conductance * ((T[from] ?? 0) - (T[to] ?? 0));
    net[from] = (net[from] ?? 0) - flow;
    net[to] = (net[to] ?? 0) + flow;
  };
  const leave = (body: number, flow: number): void => {
    net[body] = (net[body] ?? 0) - flow;
  };
  pass(0, 1, heat.windingToStator);
  pass(1, 2, heat.statorToCan);
  pass(1, 3, heat.statorToMagnets);
  pass(3, 2, heat.magnetsToCan);
  leave(2, heat.canToAir * (can - air) + canLoss(heat, can, air, pressure, wind, outrunner ? motion.shaft : 0));
  const onStator = (covers: string): boolean => outrunner && covers === 'mount';
  const body = outrunner ? 1 : 2;
  leave(body, mountLoss(heat, outrunner ? stator : can, air, pressure, wind));
  const rim = (heat.canDiameter / 2) * motion.shaft + wind;
  const through = (heat.throughFlow * Math.max(0, heat.openness) * rim) / 10 / 2;
  leave(0, through * (winding - air));
  leave(1, through * (stator - air));
  const stated = heat.statorToAir;
  if (stated !== undefined) {
    const share = stated.shaftSpeed === 0 ? 1 : rim / ((heat.canDiameter / 2) * stated.shaftSpeed);
    leave(1, stated.conductance * share * (stator - air));
  }
  const { jacket, coil, strap, sink } = heat;
  const wet = onStator((jacket ?? coil)?.covers) ? 1 : 2;
  if (jacket !== undefined) {
    const share = jacket.restShare + (1 - jacket.restShare) * (motion.vehicle / jacket.speed) ** 0.6;
    leave(wet, jacket.conductance * share * ((T[wet] ?? 0) - water));
  }
  if (coil !== undefined) leave(wet, coilConductance(coil, water, motion.vehicle) * ((T[wet] ?? 0) - water));
  if (strap !== undefined) {
    const at = onStator(strap.covers) ? 1 : 2;
    leave(at, strap.conductance * ((T[at] ?? 0) - water));
  }
  if (sink !== undefined) {
    const at = sink.covers === 'controller' ? 4 : onStator(sink.covers) ? 1 : 2;
    leave(at, sinkLoss(sink, T[at] ?? 0, at === 4 ? bay : air, pressure, wind));
  }
  // what a compartment's air takes beside radiation goes with the root of its density, and a laminar stream from 0.1 m/s on takes more
  const draught = heat.compartmentAirSpeed + heat.compartmentSpeedShare * motion.vehicle;
  const moved = cubes((pressure / 101325) ** 0.5, ((pressure / 101325) * (draught / 0.1)) ** 0.5);
  leave(4, heat.controllerToAir * (1 - heat.controllerConvection + heat.controllerConvection * moved) * (controller - bay));
  leave(5, heat.cellsToAir * (1 - heat.cellsConvection + heat.cellsConvection * moved) * (cells - bay));
  void magnets;
  return net;
}

/** Rates of the bodies' temperatures [K/s]: those that an endless conductance joins have one. */
export function ratesOf(heat: Numbers, net: readonly number[]): number[] {
  const own = ['winding', 'stator', 'can', 'magnets', 'controller', 'cells'].map((body) => heat.capacity[body] as number);
  const group = [0, 1, 2, 3, 4, 5];
  const join = (a: number, b: number, conductance: number): void => {
    if (conductance !== Infinity) return;
    const [keep, gone] = [group[a], group[b]];
    for (let k = 0; k < 6; k++) if (group[k] === gone) group[k] = keep ?? 0;
  };
  join(0, 1, heat.windingToStator);
  join(1, 2, heat.statorToCan);
  join(1, 3, heat.statorToMagnets);
  join(3, 2, heat.magnetsToCan);
  const sum = (values: readonly number[], of: number | undefined): number =>
    values.reduce((all, value, k) => (group[k] === of ? all + value : all), 0);
  return group.map((of) => sum(net, of) / sum(own, of));
}
