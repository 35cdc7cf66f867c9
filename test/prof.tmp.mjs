// packages/sim-core/src/quantities/constants.ts
var ZERO_CELSIUS = 273.15;
var ROOM_TEMPERATURE = ZERO_CELSIUS + 20;
var STANDARD_GRAVITY = 9.80665;
var STEFAN_BOLTZMANN = 5670374419e-17;
var DRY_AIR_GAS_CONSTANT = 287.05287;
var SECONDS_PER_MINUTE = 60;
var SECONDS_PER_HOUR = 3600;
var RPM = (2 * Math.PI) / SECONDS_PER_MINUTE;

// packages/sim-core/src/parts/controller.ts
var PATH_REFERENCE = ZERO_CELSIUS + 25;
var SWITCHING_FADE = 0.02;
var switchingFade = (duty) => (duty >= 1 ? 0 : duty <= 1 - SWITCHING_FADE ? 1 : (1 - duty) / SWITCHING_FADE);
var switchingShare = (controller2) => 0.5 * controller2.switchingTime * controller2.pwmFrequency;
var pathResistanceAt = (controller2, temperature3) =>
  controller2.pathResistance * (1 + controller2.resistanceCoefficient * (temperature3 - PATH_REFERENCE));

// packages/sim-core/src/drive/electrical-chain.ts
var LEAST_DUTY = 1e-6;
var emptyElectricalChain = () => ({
  emf: 0,
  sourceResistance: 1,
  idleCurrent: 0,
  otherPower: 0,
  pathResistance: 0,
  windingResistance: 1,
  switchingShare: 0,
  voltageLoss: 0,
  diodeDrop: 0,
  regenerative: false,
});
var sourceResistance = (battery2, cellFactor, drives, wiringResistance2) =>
  (drives * battery2.cellsInSeries * battery2.cellResistance * cellFactor) / battery2.cellsInParallel + wiringResistance2;
var emptyChainPoint = () => ({ busVoltage: 0, current: 0, currentSlope: 0, duty: 0, busCurrent: 0 });
var pathAt = (chain, duty) => (chain.diodeDrop > 0 ? chain.pathResistance * 0.5 * (1 + duty) : chain.pathResistance);
function openBusVoltage(chain, leak) {
  const a = 1 + chain.sourceResistance * leak;
  const b = chain.emf - chain.sourceResistance * chain.idleCurrent;
  if (chain.otherPower === 0) return b / a;
  return (b + Math.sqrt(b * b - 4 * a * chain.sourceResistance * chain.otherPower)) / (2 * a);
}
function solveOff(chain, out) {
  out.busVoltage = openBusVoltage(chain, 0);
  out.current = 0;
  out.currentSlope = 0;
  out.duty = 0;
  out.busCurrent = chain.idleCurrent;
}
function solveAtDuty(chain, duty, torqueConstant, speed, out) {
  const fade = switchingFade(duty);
  const leak = chain.voltageLoss * fade;
  const resistance = chain.windingResistance + pathAt(chain, duty);
  const drop = (1 - duty) * chain.diodeDrop;
  const { sourceResistance: sourceResistance2, otherPower } = chain;
  out.duty = duty;
  for (let sign = 1; sign >= -1; sign -= 2) {
    const share2 = duty + sign * chain.switchingShare * fade;
    const opposing = torqueConstant * speed + sign * drop;
    const coupling = (sourceResistance2 * share2) / resistance;
    const a = 1 + sourceResistance2 * leak + coupling * duty;
    const b = chain.emf - sourceResistance2 * chain.idleCurrent + coupling * opposing;
    const bus = otherPower === 0 ? b / a : (b + Math.sqrt(b * b - 4 * a * sourceResistance2 * otherPower)) / (2 * a);
    const current = (duty * bus - opposing) / resistance;
    if (sign * current >= 0) {
      out.busVoltage = bus;
      out.current = current;
      const busSlope = (bus * coupling * torqueConstant) / (2 * a * bus - b);
      out.currentSlope = (duty * busSlope - torqueConstant) / resistance;
      out.busCurrent = share2 * current + chain.idleCurrent + leak * bus;
      return;
    }
    if (Number.isNaN(current)) {
      out.busVoltage = out.current = out.currentSlope = out.busCurrent = Number.NaN;
      return;
    }
    if (!chain.regenerative) break;
  }
  out.busVoltage = openBusVoltage(chain, leak);
  out.current = 0;
  out.currentSlope = 0;
  out.busCurrent = chain.idleCurrent + leak * out.busVoltage;
}
function askedDuty(chain, duty, current, backEmf, out) {
  const fade = switchingFade(duty);
  const leak = chain.voltageLoss * fade;
  const sign = current < 0 ? -1 : 1;
  const needed = (chain.windingResistance + pathAt(chain, duty)) * current + backEmf + sign * (1 - duty) * chain.diodeDrop;
  const drawn2 = chain.switchingShare * fade * Math.abs(current) + chain.idleCurrent;
  const a = 1 + chain.sourceResistance * leak;
  const b = chain.emf - chain.sourceResistance * drawn2;
  const bus = (b + Math.sqrt(b * b - 4 * a * chain.sourceResistance * (needed * current + chain.otherPower))) / (2 * a);
  out.busVoltage = bus;
  out.current = current;
  out.currentSlope = 0;
  out.busCurrent = (needed / bus) * current + drawn2 + leak * bus;
  return needed / bus;
}
function solveForCurrent(chain, current, backEmf, out) {
  let duty = askedDuty(chain, 0.5, current, backEmf, out);
  if (chain.diodeDrop > 0) {
    for (let k = 0; k < 40; k++) {
      const next = askedDuty(chain, Math.min(duty, 1 - SWITCHING_FADE), current, backEmf, out);
      if (Math.abs(next - duty) < 1e-15) break;
      duty = next;
    }
  }
  if (duty > 1 - SWITCHING_FADE) {
    let low = 1 - SWITCHING_FADE;
    let high = 1;
    const atFull = askedDuty(chain, 1, current, backEmf, out);
    if (!(atFull < 1)) {
      out.duty = atFull;
      return atFull;
    }
    for (let k = 0; k < 100 && high - low > 1e-15; k++) {
      const middle = 0.5 * (low + high);
      if (askedDuty(chain, middle, current, backEmf, out) > middle) low = middle;
      else high = middle;
    }
    duty = 0.5 * (low + high);
    askedDuty(chain, duty, current, backEmf, out);
  }
  out.duty = duty;
  return duty;
}
var batteryLimited = { current: 0, slope: 0 };
function currentAtBatteryLimit(chain, limit, backEmf) {
  const { windingResistance: windingResistance2, pathResistance, diodeDrop, switchingShare: switchingShare2 } = chain;
  const b = chain.emf - chain.sourceResistance * limit;
  const bus = chain.otherPower === 0 ? b : 0.5 * (b + Math.sqrt(b * b - 4 * chain.sourceResistance * chain.otherPower));
  const share2 = limit - chain.idleCurrent - chain.voltageLoss * bus;
  const linear2 = backEmf + switchingShare2 * bus;
  const resistance = windingResistance2 + pathResistance;
  const root = Math.sqrt(linear2 * linear2 + 4 * resistance * bus * share2);
  let current = (2 * bus * share2) / (linear2 + root);
  let slope = -current / root;
  if (diodeDrop > 0) {
    for (let k = 0; k < 30; k++) {
      const below = bus + diodeDrop - 0.5 * pathResistance * current;
      const duty = ((windingResistance2 + 0.5 * pathResistance) * current + backEmf + diodeDrop) / below;
      const dutySlope = (windingResistance2 + 0.5 * pathResistance * (1 + duty)) / below;
      const rise = duty + switchingShare2 + current * dutySlope;
      const newton = (share2 - (duty + switchingShare2) * current) / rise;
      slope = -current / (below * rise);
      current += newton;
      if (Math.abs(newton) <= 1e-15 * Math.abs(current)) break;
    }
  }
  batteryLimited.current = current;
  batteryLimited.slope = slope;
  return batteryLimited;
}

// packages/sim-core/src/parts/motor.ts
var windingResistance = (motor2, temperature3) =>
  motor2.resistance * (1 + motor2.resistanceCoefficient * (temperature3 - ROOM_TEMPERATURE));
var fluxRatio = (motor2, temperature3) => 1 + motor2.fluxCoefficient * (temperature3 - ROOM_TEMPERATURE);
var ironTorque = (motor2, speed, flux) => (motor2.hysteresisTorque + motor2.eddyTorque * speed) * flux * flux;
var windageTorqueAt = (motor2, speed) => motor2.windageTorque * speed * speed;
var lossTorque = (motor2, speed, flux) => ironTorque(motor2, speed, flux) + motor2.frictionTorque + windageTorqueAt(motor2, speed);
var lossTorqueSlope = (motor2, speed, flux) => motor2.eddyTorque * flux * flux + 2 * motor2.windageTorque * speed;
var noLoadSpeed = (motor2, voltage, current) => (voltage - current * motor2.resistance) / motor2.torqueConstant;

// packages/sim-core/src/drive/profile.ts
var rampAt = (ramp, share2) => ramp.from + (ramp.to - ramp.from) * share2;
var profileDuration = (steps) => steps.reduce((sum, step) => sum + step.duration, 0);

// packages/sim-core/src/parts/vehicle.ts
function dragFromTable(table, speed) {
  const { speed: v, force, slope } = table;
  const last = v.length - 1;
  if (speed < 0) return -dragFromTable(table, -speed);
  if (speed >= v[last]) return force[last] * (speed / v[last]) ** 2;
  let k = 0;
  while (speed >= v[k + 1]) k++;
  const h = v[k + 1] - v[k];
  const u = (speed - v[k]) / h;
  const [f0, f1, m0, m1] = [force[k], force[k + 1], slope[k] * h, slope[k + 1] * h];
  return f0 + u * (m0 + u * (3 * (f1 - f0) - 2 * m0 - m1 + u * (2 * (f0 - f1) + m0 + m1)));
}
function dragForce(vehicle2, speed, climb) {
  const pressure = 0.5 * vehicle2.density * speed * Math.abs(speed);
  let drag = vehicle2.dragArea * pressure;
  if (vehicle2.dragTable !== void 0) drag += dragFromTable(vehicle2.dragTable, speed);
  if (vehicle2.rollingResistance !== 0 || vehicle2.inducedFactor !== 0) {
    const carried = vehicle2.mass * STANDARD_GRAVITY * Math.sqrt(Math.max(0, 1 - climb * climb));
    if (speed > 0) drag += vehicle2.rollingResistance * carried;
    if (vehicle2.inducedFactor !== 0 && speed > 0) {
      const lift = Math.min(carried, vehicle2.liftArea * pressure);
      drag += (vehicle2.inducedFactor * lift * lift) / pressure;
    }
  }
  return vehicle2.dragFactor * drag;
}

// packages/sim-core/src/kernel/motion.ts
var shareAt = ({ step, stepFrom }, t2) => (step.duration > 0 ? (t2 - stepFrom) / step.duration : 0);
function heldSpeedAt(memory, t2) {
  const { step } = memory;
  const ramp = step.hold === 'vehicleSpeed' ? step.value : step.vehicleSpeed;
  return ramp === void 0 ? Number.NaN : rampAt(ramp, shareAt(memory, t2));
}
function climbAt(memory, t2, speed) {
  const { grade, climb } = memory.step;
  if (grade !== void 0) return rampAt(grade, shareAt(memory, t2));
  if (climb !== void 0 && speed > 0) return Math.min(1, rampAt(climb, shareAt(memory, t2)) / speed);
  return 0;
}
function forceNeeded({ system, effectiveMass }, speed, acceleration, climb) {
  const { vehicle: vehicle2, drives } = system;
  return (dragForce(vehicle2, speed, climb) + vehicle2.mass * STANDARD_GRAVITY * climb + effectiveMass * acceleration) / drives;
}
function moveUnderForce(memory, speed, imposed, climb) {
  const { point: point2, system, step, effectiveMass } = memory;
  const { vehicle: vehicle2, drives } = system;
  const free = Number.isNaN(imposed);
  if (vehicle2.carriedBy === 'bench') {
    point2.acceleration = free ? 0 : imposed;
    point2.climb = 0;
    point2.drag = 0;
    return;
  }
  const pull = drives * point2.force;
  const weight = vehicle2.mass * STANDARD_GRAVITY;
  let sine = climb;
  if (!free && vehicle2.carriedBy === 'wing' && step.hold !== 'vehicleSpeed' && step.climb === void 0 && speed > 0) {
    for (let round = 0; round < 3; round++) {
      sine = (pull - dragForce(vehicle2, speed, sine) - effectiveMass * imposed) / weight;
      sine = Math.min(1, Math.max(-1, sine));
    }
  }
  point2.climb = sine;
  point2.drag = dragForce(vehicle2, speed, sine);
  if (!free) point2.acceleration = imposed;
  else {
    const acceleration = (pull - point2.drag - weight * sine) / effectiveMass;
    point2.acceleration = speed <= 0 && acceleration < 0 ? 0 : acceleration;
  }
}

// packages/sim-core/src/kernel/event-margins.ts
var KERNEL_EVENTS = [
  'windingTemperature',
  'magnetTemperature',
  'controllerTemperature',
  'cellTemperature',
  'cellVoltage',
  'empty',
  'reserve',
  'holdLost',
  'holdRegained',
  'limiterEntered',
  'limiterLeft',
  'motorCurrent',
  'inputPower',
  'shaftSpeed',
  'batteryCurrent',
  'batteryPower',
  'propellerTable',
  'dragTable',
];
var motorInput = ({ point: point2 }) => (point2.windingResistance * point2.current + point2.torqueConstant * point2.speed) * point2.current;
function eventMargins(memory, t2, y2, out) {
  const { system, point: point2, bodyIndex, hold, flatOut, step } = memory;
  const { limits: limits2, vehicle: vehicle2, controller: controller2 } = system;
  const vehicleSpeed = y2[memory.speed];
  out[0] = limits2.windingTemperature - y2[bodyIndex[0]];
  out[1] = limits2.magnetTemperature - y2[bodyIndex[3]];
  out[2] = limits2.controllerTemperature - y2[bodyIndex[4]];
  out[3] = limits2.cellTemperature - y2[bodyIndex[5]];
  out[4] = point2.cellVoltage - limits2.cellVoltage;
  out[5] = y2[memory.charge];
  out[6] = y2[memory.charge] - limits2.reserve;
  const holds2 = !flatOut && hold !== 'throttle';
  out[7] = holds2 ? Math.min(1 - point2.dutyAsked, 1 - point2.currentUnlimited / controller2.motorCurrentLimit) : 1;
  out[8] = flatOut && step.hold === 'vehicleSpeed' ? heldSpeedAt(memory, t2) - vehicleSpeed : 1;
  const limited = hold === 'throttle' && point2.limit < Number.POSITIVE_INFINITY && point2.duty > 0;
  out[9] = limited ? point2.limit - point2.currentUnlimited : 1;
  out[10] = limited ? point2.currentUnlimited - point2.limit : 1;
  out[11] = limits2.motorCurrent - point2.current;
  out[12] = limits2.inputPower - motorInput(memory);
  out[13] = limits2.shaftSpeed - point2.speed;
  out[14] = limits2.batteryCurrent - point2.packCurrent;
  out[15] = limits2.batteryPower - point2.packCurrent * point2.busVoltage;
  out[16] = point2.duty > 0 && point2.outsideTable !== 0 ? -1 : 1;
  const table = vehicle2.dragTable;
  out[17] = table === void 0 ? 1 : table.speed[table.speed.length - 1] - vehicleSpeed + 1e-9;
  for (let k = 0; k < out.length; k++) if (out[k] === Number.POSITIVE_INFINITY) out[k] = 1;
}

// packages/sim-core/src/media/air.ts
var COLDEST_AIR = 180;
var HOTTEST_AIR = 1050;
var requireInRange = (temperature3) => {
  if (!(temperature3 >= COLDEST_AIR && temperature3 <= HOTTEST_AIR))
    throw new RangeError(`Air properties hold from ${COLDEST_AIR} to ${HOTTEST_AIR} K; asked for ${temperature3} K.`);
};
var airDensity = (temperature3, pressure) => {
  requireInRange(temperature3);
  if (!(pressure > 0)) throw new RangeError(`Air needs a positive pressure; asked for ${pressure} Pa.`);
  return pressure / (DRY_AIR_GAS_CONSTANT * temperature3);
};
var airViscosity = (temperature3) => {
  requireInRange(temperature3);
  return (1458e-9 * temperature3 * Math.sqrt(temperature3)) / (temperature3 + 110.4);
};
var airKinematicViscosity = (temperature3, pressure) => airViscosity(temperature3) / airDensity(temperature3, pressure);
var airConductivity = (temperature3) => {
  requireInRange(temperature3);
  return (2648151e-9 * temperature3 * Math.sqrt(temperature3)) / (temperature3 + 245.4 * Math.exp((-12 * Math.LN10) / temperature3));
};
var airSpecificHeat = (temperature3) => {
  requireInRange(temperature3);
  return 1034.09 + temperature3 * (-0.284887 + temperature3 * (7816818e-10 + temperature3 * (-4970786e-13 + temperature3 * 1077024e-16)));
};
var airPrandtl = (temperature3) => (airViscosity(temperature3) * airSpecificHeat(temperature3)) / airConductivity(temperature3);

// packages/sim-core/src/heat/nusselt-forced.ts
var CROSS_FLOW_CONDUCTION = 0.3;
var crossFlowNusselt = (reynolds, prandtl) => {
  const wall = Math.sqrt(Math.sqrt(1 + Math.cbrt(0.4 / prandtl) ** 2));
  const root = Math.sqrt(reynolds / 282e3);
  const turbulence = (1 + root * Math.sqrt(Math.sqrt(root))) ** 0.8;
  return CROSS_FLOW_CONDUCTION + ((0.62 * Math.sqrt(reynolds) * Math.cbrt(prandtl)) / wall) * turbulence;
};
var laminarPlateNusselt = (reynolds, prandtl) => 0.664 * Math.sqrt(reynolds) * Math.cbrt(prandtl);
var turbulentPlateNusselt = (reynolds, prandtl) => 0.037 * reynolds ** 0.8 * Math.cbrt(prandtl);
var plateNusselt = (reynolds, prandtl) => {
  const laminar = laminarPlateNusselt(reynolds, prandtl);
  const turbulent = turbulentPlateNusselt(reynolds, prandtl);
  return Math.sqrt(laminar * laminar + turbulent * turbulent);
};

// packages/sim-core/src/heat/nusselt-natural.ts
var nineSixteenths = (x) => Math.sqrt(Math.sqrt(x * x * Math.sqrt(Math.sqrt(x))));
var eightTwentySevenths = (x) => {
  const square = x * x;
  const fourth = square * square;
  return Math.cbrt(Math.cbrt(Math.cbrt(fourth * fourth)));
};
var cylinderNaturalNusselt = (rayleigh2, prandtl) => {
  const root = 0.6 + (0.387 * Math.sqrt(Math.cbrt(rayleigh2))) / eightTwentySevenths(1 + nineSixteenths(0.559 / prandtl));
  return root * root;
};
var plateNaturalNusselt = (rayleigh2, prandtl) => {
  const root = 0.825 + (0.387 * Math.sqrt(Math.cbrt(rayleigh2))) / eightTwentySevenths(1 + nineSixteenths(0.492 / prandtl));
  return root * root;
};

// packages/sim-core/src/heat/nusselt-rotation.ts
var CRITICAL_DISC_REYNOLDS = 25e4;
var turningCylinderNusselt = (reynolds, prandtl) => 0.133 * Math.cbrt(reynolds * reynolds * prandtl);
var turningDiscNusselt = (reynolds, prandtl) => {
  const laminar = 0.326 * (prandtl / 0.71) ** 0.59 * Math.sqrt(reynolds);
  if (reynolds <= CRITICAL_DISC_REYNOLDS) return laminar;
  const inner = CRITICAL_DISC_REYNOLDS / reynolds;
  return laminar * inner + 0.015 * reynolds ** 0.8 * (1 - inner ** 1.3);
};

// packages/sim-core/src/heat/convection.ts
var blendCoefficients = (a, b, c = 0, d = 0) => Math.cbrt(a * a * a + b * b * b + c * c * c + d * d * d);
var requireSize = (size) => {
  if (!(size > 0)) throw new RangeError(`A surface needs a positive size; got ${size} m.`);
};
var rayleigh = (difference, film, viscosity, prandtl, size) =>
  (STANDARD_GRAVITY * Math.abs(difference) * size ** 3 * prandtl) / (film * viscosity * viscosity);
var cylinderSideCoefficient = (surfaceTemperature, airTemperature, pressure, diameter, length, crossSpeed, alongSpeed, spin) => {
  requireSize(diameter);
  requireSize(length);
  const film = (surfaceTemperature + airTemperature) / 2;
  const viscosity = airKinematicViscosity(film, pressure);
  const prandtl = airPrandtl(film);
  const natural = cylinderNaturalNusselt(rayleigh(surfaceTemperature - airTemperature, film, viscosity, prandtl, diameter), prandtl);
  const across = crossSpeed === 0 ? 0 : crossFlowNusselt((Math.abs(crossSpeed) * diameter) / viscosity, prandtl) - CROSS_FLOW_CONDUCTION;
  const along = alongSpeed === 0 ? 0 : (plateNusselt((Math.abs(alongSpeed) * length) / viscosity, prandtl) * diameter) / length;
  const turning2 = spin === 0 ? 0 : turningCylinderNusselt((Math.abs(spin) * diameter * diameter) / viscosity, prandtl);
  return (airConductivity(film) / diameter) * blendCoefficients(natural, across, along, turning2);
};
var cylinderEndCoefficient = (surfaceTemperature, airTemperature, pressure, diameter, airSpeed, spin) => {
  requireSize(diameter);
  const film = (surfaceTemperature + airTemperature) / 2;
  const viscosity = airKinematicViscosity(film, pressure);
  const prandtl = airPrandtl(film);
  const radius = diameter / 2;
  const natural = plateNaturalNusselt(rayleigh(surfaceTemperature - airTemperature, film, viscosity, prandtl, diameter), prandtl);
  const forced = airSpeed === 0 ? 0 : plateNusselt((Math.abs(airSpeed) * diameter) / viscosity, prandtl);
  const turning2 = spin === 0 ? 0 : 2 * turningDiscNusselt((Math.abs(spin) * radius * radius) / viscosity, prandtl);
  return (airConductivity(film) / diameter) * blendCoefficients(natural, forced, turning2);
};

// packages/sim-core/src/heat/radiation.ts
var radiationFlux = (surfaceTemperature, surroundings, emissivity) =>
  radiationCoefficient(surfaceTemperature, surroundings, emissivity) * (surfaceTemperature - surroundings);
var radiationCoefficient = (surfaceTemperature, surroundings, emissivity) =>
  emissivity *
  STEFAN_BOLTZMANN *
  (surfaceTemperature * surfaceTemperature + surroundings * surroundings) *
  (surfaceTemperature + surroundings);

// packages/sim-core/src/heat/can-surface.ts
var COLDEST = 181;
var HOTTEST = 1e3;
function canHeatFlow(paths, can, air, pressure, airSpeed, spin) {
  const { sideArea, endArea } = paths;
  if (sideArea + endArea === 0) return 0;
  if (!(can > COLDEST && can < HOTTEST)) return Number.NaN;
  let conductance2 = 0;
  if (sideArea > 0)
    conductance2 += sideArea * cylinderSideCoefficient(can, air, pressure, paths.canDiameter, paths.canLength, 0, airSpeed, spin);
  if (endArea > 0) conductance2 += endArea * cylinderEndCoefficient(can, air, pressure, paths.canDiameter, airSpeed, spin);
  return paths.convectionFactor * conductance2 * (can - air) + (sideArea + endArea) * radiationFlux(can, air, paths.emissivity);
}

// packages/sim-core/src/media/water.ts
var COLDEST2 = ZERO_CELSIUS;
var HOTTEST2 = ZERO_CELSIUS + 60;
var GAS_CONSTANT = 461.51805;
var PRACTICAL_SALINITY = 35;
var SALT_SHARE = 0.03516504;
var requireLiquid = (temperature3) => {
  if (!(temperature3 >= COLDEST2 && temperature3 <= HOTTEST2))
    throw new RangeError(`Water properties hold from ${COLDEST2} to ${HOTTEST2} K (0 to 60 \xB0C); asked for ${temperature3} K.`);
};
var saltDensity = (t2) => {
  const a = 0.824493 + t2 * (-40899e-7 + t2 * (76438e-9 + t2 * (-82467e-11 + t2 * 53875e-13)));
  const b = -572466e-8 + t2 * (10227e-8 - t2 * 16546e-10);
  return PRACTICAL_SALINITY * (a + b * Math.sqrt(PRACTICAL_SALINITY) + 48314e-8 * PRACTICAL_SALINITY);
};
var waterDensity = (kind, temperature3) => {
  requireLiquid(temperature3);
  const a = 10 / (593 - temperature3);
  const b = 10 / (temperature3 - 232);
  const hot = a ** 4 * (6744.58446 + a * (-222521.604 + a * a * (100231247 + a * (-1635521180 + a * 8322996580))));
  const cold =
    b * (0.00578545292 + b * (-0.0153195665 + b * (0.0311337859 + b * (-0.0423546241 + b * (0.0338713507 + b * -0.0119946761)))));
  const fresh = 1e5 / (GAS_CONSTANT * 10 * (0.0193763157 + hot + cold));
  return kind === 'sea' ? fresh + saltDensity(temperature3 - ZERO_CELSIUS) : fresh;
};
var waterViscosity = (kind, temperature3) => {
  requireLiquid(temperature3);
  const x = temperature3 / 300;
  const fresh = 1e-6 * (280.68 * x ** -1.9 + 511.45 * x ** -7.7 + 61.131 * x ** -19.6 + 0.45903 * x ** -40);
  if (kind === 'fresh') return fresh;
  const t2 = temperature3 - ZERO_CELSIUS;
  const a = 1.541 + t2 * (0.01998 - t2 * 952e-7);
  const b = 7.974 + t2 * (-0.07561 + t2 * 4724e-7);
  return fresh * (1 + SALT_SHARE * (a + SALT_SHARE * b));
};
var waterKinematicViscosity = (kind, temperature3) => waterViscosity(kind, temperature3) / waterDensity(kind, temperature3);

// packages/sim-core/src/heat/water-jacket.ts
var JACKET_EXPONENT = 0.6;
var JACKET_REST_SHARE = 0.1;
var jacketConductance = (conductance2, referenceSpeed, speed, restShare = JACKET_REST_SHARE, exponent = JACKET_EXPONENT) => {
  if (!(referenceSpeed > 0)) throw new RangeError(`A jacket's conductance needs the speed at which it holds; got ${referenceSpeed} m/s.`);
  return conductance2 * (restShare + (1 - restShare) * (Math.abs(speed) / referenceSpeed) ** exponent);
};

// packages/sim-core/src/kernel/heat-flows.ts
function airSpeedAt({ system, point: point2, advance }, speed) {
  const { heat, load } = system;
  let air = heat.airSpeed + heat.vehicleSpeedShare * speed;
  if (heat.slipstreamShare > 0 && load.kind === 'propeller' && point2.thrust > 0) {
    const disc = 0.25 * Math.PI * load.diameter * load.diameter;
    const induced = -0.5 * advance + Math.sqrt(0.25 * advance * advance + point2.thrust / (2 * load.density * disc));
    air += 2 * heat.slipstreamShare * induced;
  }
  return air;
}
var joined = (conductance2, difference) => (conductance2 === Number.POSITIVE_INFINITY ? 0 : conductance2 * difference);
var conductionResistance = ({ chain, point: point2 }) =>
  chain.diodeDrop > 0 ? point2.pathResistance * 0.5 * (1 + point2.duty) : point2.pathResistance;
function cellHeat({ system, point: point2, cellFactor, polarisation }, y2) {
  const { battery: battery2 } = system;
  const current = point2.packCurrent / battery2.cellsInParallel;
  const slow = y2[polarisation];
  return (
    battery2.cellsInSeries *
    battery2.cellsInParallel *
    (battery2.cellResistance * cellFactor * current * current + (slow * slow) / (battery2.polarisationResistance * cellFactor))
  );
}
function heatFlows(memory, y2) {
  const { system, bodyIndex, point: point2, flux, chain, heat } = memory;
  const { heat: paths, surroundings, motor: motor2, controller: controller2, drives } = system;
  const winding = y2[bodyIndex[0]];
  const stator = y2[bodyIndex[1]];
  const can = y2[bodyIndex[2]];
  const magnets = y2[bodyIndex[3]];
  const air = surroundings.airTemperature;
  const { speed, current, busVoltage, duty } = point2;
  const vehicleSpeed = y2[memory.speed];
  const outrunner = paths.layout === 'outrunner';
  const iron = ironTorque(motor2, speed, flux) * speed;
  const friction = motor2.frictionTorque * speed;
  const spin = outrunner ? speed * paths.openness : 0;
  const through = 0.5 * paths.throughFlow * speed;
  const jacketOnCan = paths.jacketCovers === 'can' || !outrunner;
  let jacketed = 0;
  if (paths.jacket !== void 0) {
    const conductance2 = jacketConductance(paths.jacket.conductance, paths.jacket.speed, vehicleSpeed, paths.jacket.restShare);
    jacketed = conductance2 * ((jacketOnCan ? can : stator) - surroundings.waterTemperature);
  }
  const canShed =
    canHeatFlow(paths, can, air, surroundings.airPressure, airSpeedAt(memory, vehicleSpeed), spin) +
    paths.canToMount * (can - air) +
    (jacketOnCan ? jacketed : 0);
  const statorShed = (paths.statorToMount + through) * (stator - air) + (jacketOnCan ? 0 : jacketed);
  const windingShed = through * (winding - air);
  const windingToStator = joined(paths.windingToStator, winding - stator);
  const statorToCan = joined(paths.statorToCan, stator - can);
  const statorToMagnets = joined(paths.statorToMagnets, stator - magnets);
  const magnetsToCan = joined(paths.magnetsToCan, magnets - can);
  heat[0] = current * current * point2.windingResistance - windingToStator - windingShed;
  heat[1] = iron * (1 - motor2.magnetLossShare) + (outrunner ? friction : 0) + windingToStator - statorToCan - statorToMagnets - statorShed;
  heat[2] = (outrunner ? 0 : friction) + statorToCan + magnetsToCan - canShed;
  heat[3] = iron * motor2.magnetLossShare + statorToMagnets - magnetsToCan;
  const fade = duty > 0 ? switchingFade(duty) : 0;
  const size = Math.abs(current);
  const controllerLoss =
    current * current * conductionResistance(memory) +
    (size * chain.switchingShare + controller2.voltageLoss * busVoltage) * fade * busVoltage +
    (1 - duty) * controller2.diodeDrop * size +
    chain.idleCurrent * busVoltage;
  const controllerShed = paths.controllerToAir * (y2[bodyIndex[4]] - surroundings.compartmentTemperature);
  const cellShed = paths.cellsToAir * (y2[bodyIndex[5]] - surroundings.compartmentTemperature);
  heat[4] = controllerLoss - controllerShed;
  heat[5] = cellHeat(memory, y2) - cellShed;
  return canShed + statorShed + windingShed + controllerShed + cellShed / drives;
}

// packages/sim-core/src/heat/heat-paths.ts
var BODIES = ['winding', 'stator', 'can', 'magnets', 'controller', 'cells'];

// packages/sim-core/src/parts/propeller/coefficient-lookup.ts
function emptyCoefficients() {
  return {
    thrustCoefficient: 0,
    thrustSlope: 0,
    thrustReynoldsSlope: 0,
    powerCoefficient: 0,
    powerSlope: 0,
    powerReynoldsSlope: 0,
    outside: 0,
  };
}
function interval(table, advanceRatio) {
  const x = table.advanceRatio;
  const last = x.length - 2;
  if (table.evenStep > 0) {
    const index = Math.floor((advanceRatio - x[0]) / table.evenStep);
    return Math.min(index, last);
  }
  let low = 0;
  let high = last + 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle] <= advanceRatio) low = middle;
    else high = middle;
  }
  return low;
}
function evaluateTable(table, advanceRatio, logReynolds, out) {
  const sheets = table.logReynolds.length;
  let sheet = 0;
  let share2 = 0;
  let width = 0;
  if (sheets > 1 && logReynolds > table.logReynolds[0]) {
    while (sheet < sheets - 2 && logReynolds > table.logReynolds[sheet + 1]) sheet++;
    width = table.logReynolds[sheet + 1] - table.logReynolds[sheet];
    share2 = (logReynolds - table.logReynolds[sheet]) / width;
    if (share2 >= 1) {
      share2 = 1;
      width = 0;
    }
  }
  evaluateSheet(table, sheet, advanceRatio, out);
  if (share2 > 0) {
    const thrust = out.thrustCoefficient;
    const thrustSlope = out.thrustSlope;
    const power2 = out.powerCoefficient;
    const powerSlope = out.powerSlope;
    evaluateSheet(table, sheet + 1, advanceRatio, out);
    out.thrustReynoldsSlope = width > 0 ? (out.thrustCoefficient - thrust) / width : 0;
    out.powerReynoldsSlope = width > 0 ? (out.powerCoefficient - power2) / width : 0;
    out.thrustCoefficient = thrust + share2 * (out.thrustCoefficient - thrust);
    out.thrustSlope = thrustSlope + share2 * (out.thrustSlope - thrustSlope);
    out.powerCoefficient = power2 + share2 * (out.powerCoefficient - power2);
    out.powerSlope = powerSlope + share2 * (out.powerSlope - powerSlope);
  } else {
    out.thrustReynoldsSlope = 0;
    out.powerReynoldsSlope = 0;
  }
  const supported = table.supported;
  out.outside =
    advanceRatio > supported.to ? advanceRatio - supported.to : advanceRatio < supported.from ? advanceRatio - supported.from : 0;
}
function evaluateSheet(table, sheet, advanceRatio, out) {
  const x = table.advanceRatio;
  const rows = x.length;
  const base = sheet * rows;
  const last = x[rows - 1];
  if (rows === 1 || advanceRatio <= x[0]) {
    const held = rows === 1 || advanceRatio < x[0];
    out.thrustCoefficient = table.thrust[base];
    out.powerCoefficient = table.power[base];
    out.thrustSlope = held ? 0 : table.thrustSlope[base];
    out.powerSlope = held ? 0 : table.powerSlope[base];
    return;
  }
  if (advanceRatio > last) {
    const end = base + rows - 1;
    const ratio = advanceRatio / last;
    out.thrustCoefficient = table.thrust[end] * ratio * ratio;
    out.powerCoefficient = table.power[end] * ratio * ratio;
    out.thrustSlope = (2 * out.thrustCoefficient) / advanceRatio;
    out.powerSlope = (2 * out.powerCoefficient) / advanceRatio;
    return;
  }
  const index = interval(table, advanceRatio);
  const i = base + index;
  const h = x[index + 1] - x[index];
  const s = (advanceRatio - x[index]) / h;
  const thrust0 = table.thrust[i];
  const thrustRise = table.thrust[i + 1] - thrust0;
  const thrustStart = h * table.thrustSlope[i];
  const thrustEnd = h * table.thrustSlope[i + 1];
  const thrustC = 3 * thrustRise - 2 * thrustStart - thrustEnd;
  const thrustD = thrustStart + thrustEnd - 2 * thrustRise;
  out.thrustCoefficient = thrust0 + s * (thrustStart + s * (thrustC + s * thrustD));
  out.thrustSlope = (thrustStart + s * (2 * thrustC + 3 * s * thrustD)) / h;
  const power0 = table.power[i];
  const powerRise = table.power[i + 1] - power0;
  const powerStart = h * table.powerSlope[i];
  const powerEnd = h * table.powerSlope[i + 1];
  const powerC = 3 * powerRise - 2 * powerStart - powerEnd;
  const powerD = powerStart + powerEnd - 2 * powerRise;
  out.powerCoefficient = power0 + s * (powerStart + s * (powerC + s * powerD));
  out.powerSlope = (powerStart + s * (2 * powerC + 3 * s * powerD)) / h;
}

// packages/sim-core/src/parts/propeller/propeller-laws.ts
function emptyPropellerPoint() {
  return { thrust: 0, torque: 0, thrustSlope: 0, torqueSlope: 0, advanceRatio: 0, outside: 0, coefficients: emptyCoefficients() };
}
var TURN = 2 * Math.PI;
function evaluatePropeller(propeller2, medium, angularSpeed, advanceSpeed, out) {
  const { table, diameter, thrustFactor, powerFactor } = propeller2;
  const { coefficients: coefficients2 } = out;
  const rows = table.advanceRatio.length;
  const lastAdvanceRatio2 = table.advanceRatio[rows - 1];
  const speed = angularSpeed > 0 ? angularSpeed / TURN : 0;
  const advanceRatio = speed > 0 ? advanceSpeed / (speed * diameter) : restingAdvanceRatio(advanceSpeed);
  const logReynolds = table.logReynolds.length > 1 ? Math.log((speed * diameter * diameter) / medium.kinematicViscosity) : 0;
  out.advanceRatio = advanceRatio;
  if (rows > 1 && advanceRatio > lastAdvanceRatio2) {
    evaluateTable(table, lastAdvanceRatio2, logReynolds, coefficients2);
    const scale = (medium.density * advanceSpeed * advanceSpeed * diameter * diameter) / (lastAdvanceRatio2 * lastAdvanceRatio2);
    const thrustScale2 = thrustFactor * scale;
    const torqueScale2 = (powerFactor * scale * diameter) / TURN;
    out.thrust = thrustScale2 * coefficients2.thrustCoefficient;
    out.torque = torqueScale2 * coefficients2.powerCoefficient;
    out.thrustSlope = angularSpeed > 0 ? (thrustScale2 * coefficients2.thrustReynoldsSlope) / angularSpeed : 0;
    out.torqueSlope = angularSpeed > 0 ? (torqueScale2 * coefficients2.powerReynoldsSlope) / angularSpeed : 0;
    out.outside = advanceRatio - table.supported.to;
    return;
  }
  evaluateTable(table, advanceRatio, logReynolds, coefficients2);
  const { thrustCoefficient, powerCoefficient } = coefficients2;
  const perSpeed = medium.density * speed * diameter ** 4;
  const thrustScale = thrustFactor * perSpeed;
  const torqueScale = (powerFactor * perSpeed * diameter) / TURN;
  out.thrust = thrustScale * speed * thrustCoefficient;
  out.torque = torqueScale * speed * powerCoefficient;
  const finite = advanceRatio < Infinity ? advanceRatio : 0;
  out.thrustSlope = (thrustScale * (2 * thrustCoefficient - finite * coefficients2.thrustSlope + coefficients2.thrustReynoldsSlope)) / TURN;
  out.torqueSlope = (torqueScale * (2 * powerCoefficient - finite * coefficients2.powerSlope + coefficients2.powerReynoldsSlope)) / TURN;
  out.outside = coefficients2.outside;
}
function restingAdvanceRatio(advanceSpeed) {
  return advanceSpeed > 0 ? Infinity : advanceSpeed < 0 ? -Infinity : 0;
}

// packages/sim-core/src/parts/wheel.ts
var turningMass = (wheelInertia, rotorInertia, gearRatio, radius) => (wheelInertia + rotorInertia * gearRatio ** 2) / radius ** 2;

// packages/sim-core/src/kernel/operating-point.ts
var emptyOperatingPoint = () => ({
  duty: 0,
  speed: 0,
  current: 0,
  busVoltage: 0,
  busCurrent: 0,
  packCurrent: 0,
  torqueConstant: 0,
  windingResistance: 0,
  pathResistance: 0,
  loadTorque: 0,
  force: 0,
  thrust: 0,
  driverTorque: 0,
  driverSpeed: 0,
  dutyAsked: 0,
  currentUnlimited: 0,
  limit: Number.POSITIVE_INFINITY,
  outsideTable: 0,
  acceleration: 0,
  climb: 0,
  drag: 0,
  stalled: false,
  unstable: false,
  braked: false,
  openCircuit: 0,
  cellVoltage: 0,
});

// packages/sim-core/src/kernel/kernel-memory.ts
function emptyKernelMemory() {
  return {
    system: void 0,
    step: void 0,
    stepFrom: 0,
    flatOut: false,
    hold: 'throttle',
    chain: emptyElectricalChain(),
    chainPoint: emptyChainPoint(),
    propeller: emptyPropellerPoint(),
    medium: { density: 1, kinematicViscosity: 1 },
    point: emptyOperatingPoint(),
    bodyIndex: new Int32Array(BODIES.length),
    capacities: new Float64Array(BODIES.length),
    heat: new Float64Array(BODIES.length),
    bodies: 0,
    charge: 0,
    polarisation: 0,
    speed: 0,
    gearEfficiency: 1,
    effectiveMass: 1,
    flux: 1,
    cellFactor: 1,
    advance: 0,
    warmSpeed: 0,
    solvedTime: Number.NaN,
    solvedState: new Float64Array(BODIES.length + 3),
  };
}
function loadSystem(memory, system) {
  memory.solvedTime = Number.NaN;
  memory.warmSpeed = 0;
  memory.system = system;
  const { heat, gearbox: gearbox2, load, vehicle: vehicle2, motor: motor2, controller: controller2, drives } = system;
  const root = [0, 1, 2, 3, 4, 5];
  const join = (a, b, conductance2) => {
    if (conductance2 !== Number.POSITIVE_INFINITY) return;
    const [from, to] = [root[b], root[a]];
    for (let k = 0; k < root.length; k++) if (root[k] === from) root[k] = to;
  };
  join(0, 1, heat.windingToStator);
  join(1, 2, heat.statorToCan);
  join(1, 3, heat.statorToMagnets);
  join(2, 3, heat.magnetsToCan);
  memory.capacities.fill(0);
  memory.bodies = 0;
  const slot = /* @__PURE__ */ new Map();
  for (let k = 0; k < BODIES.length; k++) {
    let index = slot.get(root[k]);
    if (index === void 0) {
      index = memory.bodies++;
      slot.set(root[k], index);
    }
    memory.bodyIndex[k] = index;
    memory.capacities[index] += heat.capacity[BODIES[k]];
  }
  memory.charge = memory.bodies;
  memory.polarisation = memory.bodies + 1;
  memory.speed = memory.bodies + 2;
  const { chain } = memory;
  chain.idleCurrent = controller2.idleCurrent;
  chain.otherPower = system.otherLoads / drives;
  chain.switchingShare = switchingShare(controller2);
  chain.voltageLoss = controller2.voltageLoss;
  chain.diodeDrop = controller2.diodeDrop;
  chain.regenerative = controller2.braking === 'regenerative';
  memory.gearEfficiency = gearbox2.efficiency * (load.kind === 'propeller' ? load.shaftEfficiency : 1);
  memory.effectiveMass = vehicle2.mass * (1 + vehicle2.addedMass);
  if (load.kind === 'wheel') {
    memory.effectiveMass += drives * turningMass(load.inertia, motor2.rotorInertia, gearbox2.ratio, load.radius);
  } else {
    memory.medium.density = load.density;
    memory.medium.kinematicViscosity = load.kinematicViscosity;
  }
}
function initialState({ system, bodyIndex, charge, polarisation, speed }, y2) {
  const { start: start2 } = system;
  for (let k = 0; k < 4; k++) y2[bodyIndex[k]] = start2.motorTemperature;
  y2[bodyIndex[4]] = start2.controllerTemperature;
  y2[bodyIndex[5]] = start2.cellTemperature;
  y2[charge] = start2.charge;
  y2[polarisation] = 0;
  y2[speed] = 0;
}

// packages/sim-core/src/kernel/power-flows.ts
function powerFlows(memory, y2, out) {
  const { system, point: point2, chain, flux, cellFactor, gearEfficiency, advance } = memory;
  const {
    battery: battery2,
    controller: controller2,
    motor: motor2,
    drives,
    load,
    gearbox: gearbox2,
    wiring: wiring2,
    vehicle: vehicle2,
  } = system;
  const { current, busVoltage, speed, duty } = point2;
  const vehicleSpeed = y2[memory.speed];
  const slow = y2[memory.polarisation];
  const perCell = point2.packCurrent / battery2.cellsInParallel;
  const count3 = battery2.cellsInSeries * battery2.cellsInParallel;
  const fade = duty > 0 ? switchingFade(duty) : 0;
  const size = Math.abs(current);
  const driveCurrent = point2.packCurrent / drives;
  out[0] = battery2.cellsInSeries * point2.openCircuit * driveCurrent;
  out[1] = cellHeat(memory, y2) / drives;
  out[2] = (count3 * slow * (perCell - slow / (battery2.polarisationResistance * cellFactor))) / drives;
  out[3] = wiring2.resistance * driveCurrent * driveCurrent;
  out[4] = chain.otherPower;
  out[5] = chain.idleCurrent * busVoltage;
  out[6] = current * current * conductionResistance(memory) + (1 - duty) * controller2.diodeDrop * size;
  out[7] = (size * chain.switchingShare + controller2.voltageLoss * busVoltage) * fade * busVoltage;
  out[8] = current * current * point2.windingResistance;
  out[9] = ironTorque(motor2, speed, flux) * speed;
  out[10] = (motor2.frictionTorque + windageTorqueAt(motor2, speed)) * speed;
  out[11] =
    point2.driverTorque >= 0
      ? point2.loadTorque * speed * (1 - gearEfficiency)
      : -point2.driverTorque * point2.driverSpeed * (1 - gearEfficiency);
  if (load.kind === 'propeller') {
    const advanced = point2.thrust * advance;
    out[12] =
      point2.driverTorque * (speed / gearbox2.ratio) - advanced + (advanced - point2.thrust * (1 - load.thrustDeduction) * vehicleSpeed);
  } else out[12] = 0;
  out[13] = vehicle2.carriedBy === 'bench' && load.kind === 'wheel' ? 0 : point2.force * vehicleSpeed;
}

// packages/sim-core/src/parts/gearbox.ts
var torqueBeforeGear = (loadTorque, ratio, efficiency) =>
  loadTorque >= 0 ? loadTorque / (ratio * efficiency) : (loadTorque * efficiency) / ratio;

// packages/sim-core/src/kernel/shaft-balance.ts
var ROOT_TOLERANCE = 1e-13;
var MOST_ITERATIONS = 200;
var FASTEST = 1e5;
function loadAt(memory, speed, folded3) {
  const { point: point2, propeller: propeller2, gearEfficiency } = memory;
  const { load, gearbox: gearbox2 } = memory.system;
  if (load.kind === 'wheel') return 0;
  point2.driverSpeed = speed / gearbox2.ratio;
  if (folded3) {
    point2.loadTorque = point2.force = point2.thrust = point2.driverTorque = point2.outsideTable = 0;
    return 0;
  }
  evaluatePropeller(load, memory.medium, point2.driverSpeed, memory.advance, propeller2);
  point2.driverTorque = propeller2.torque;
  point2.thrust = propeller2.thrust;
  point2.force = propeller2.thrust * (1 - load.thrustDeduction);
  point2.outsideTable = propeller2.outside;
  point2.loadTorque = torqueBeforeGear(propeller2.torque, gearbox2.ratio, gearEfficiency);
  const slope = propeller2.torqueSlope / gearbox2.ratio;
  return propeller2.torque >= 0 ? slope / (gearbox2.ratio * gearEfficiency) : (slope * gearEfficiency) / gearbox2.ratio;
}
var limitedCurrent = { current: 0, slope: 0 };
function mostCurrent({ system, chain, point: point2 }, speed) {
  const { motorCurrentLimit, batteryCurrentLimit } = system.controller;
  limitedCurrent.current = motorCurrentLimit;
  limitedCurrent.slope = 0;
  if (batteryCurrentLimit !== Number.POSITIVE_INFINITY) {
    const kt = point2.torqueConstant;
    const held = currentAtBatteryLimit(chain, batteryCurrentLimit, kt * speed);
    if (held.current < motorCurrentLimit) {
      limitedCurrent.current = held.current;
      limitedCurrent.slope = held.slope * kt;
    }
  }
  return limitedCurrent;
}
var COUNT = { residuals: 0, solves: 0 };
var residual = { value: 0, slope: 0 };
function balanceAt(memory, speed, duty, fixedCurrent, folded3) {
  const { point: point2, chain, chainPoint, system, flux } = memory;
  COUNT.residuals++;
  const slopeLoad = loadAt(memory, speed, folded3);
  const kt = point2.torqueConstant;
  let current = 0;
  let slope = 0;
  if (!Number.isNaN(fixedCurrent)) current = fixedCurrent;
  else if (duty > 0) {
    solveAtDuty(chain, duty, kt, speed, chainPoint);
    current = chainPoint.current;
    slope = chainPoint.currentSlope;
    const most = mostCurrent(memory, speed);
    if (current > most.current) {
      current = most.current;
      slope = most.slope;
    }
  }
  residual.value = kt * current - lossTorque(system.motor, speed, flux) - point2.loadTorque;
  residual.slope = kt * slope - lossTorqueSlope(system.motor, speed, flux) - slopeLoad;
}
function balanceSpeed(memory, duty, fixedCurrent, folded3) {
  const { point: point2, chain } = memory;
  COUNT.solves++;
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  let speed = memory.warmSpeed > 0 ? memory.warmSpeed : Math.max(1, (0.7 * duty * chain.emf) / point2.torqueConstant);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    balanceAt(memory, speed, duty, fixedCurrent, folded3);
    const newton = -residual.value / residual.slope;
    const settled = Math.abs(newton) <= ROOT_TOLERANCE * speed + 1e-12;
    if (Number.isNaN(residual.value)) return Number.NaN;
    if (residual.value > 0) low = speed;
    else high = speed;
    if (settled || (high < Number.POSITIVE_INFINITY && high - low <= ROOT_TOLERANCE * high)) {
      point2.unstable = residual.slope > 0;
      point2.stalled = false;
      memory.warmSpeed = speed;
      return speed;
    }
    let next = speed + newton;
    if (!(next > low && next < high)) {
      if (low === 0 && next <= 0) {
        if (high < 1e-6) {
          balanceAt(memory, 0, duty, fixedCurrent, folded3);
          if (residual.value <= 0) {
            point2.stalled = true;
            return 0;
          }
        }
        next = 0.2 * high;
      } else next = high === Number.POSITIVE_INFINITY ? 2 * speed + 10 : 0.5 * (low + high);
    }
    speed = next;
  }
  return Number.NaN;
}
function speedForThrust(memory, thrust) {
  const { propeller: propeller2, medium, advance } = memory;
  const { load, gearbox: gearbox2 } = memory.system;
  if (load.kind !== 'propeller') return Number.NaN;
  const at2 = (speed2) => evaluatePropeller(load, medium, speed2, advance, propeller2);
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  at2(0);
  if (propeller2.thrust >= thrust) return 0;
  let speed = memory.warmSpeed > 0 ? memory.warmSpeed / gearbox2.ratio : 100;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    at2(speed);
    const miss = propeller2.thrust - thrust;
    if (Number.isNaN(miss)) return Number.NaN;
    const newton = -miss / propeller2.thrustSlope;
    if (Math.abs(newton) <= ROOT_TOLERANCE * speed && miss * miss <= 1e-18 * (1 + thrust * thrust)) break;
    if (miss < 0) low = speed;
    else high = speed;
    if (high < Number.POSITIVE_INFINITY && high - low <= ROOT_TOLERANCE * high) break;
    let next = speed + newton;
    if (!(next > low && next < high)) next = high === Number.POSITIVE_INFINITY ? 2 * speed : 0.5 * (low + high);
    if (next > FASTEST) return Number.NaN;
    speed = next;
  }
  return speed * gearbox2.ratio;
}

// packages/sim-core/src/parts/battery.ts
var CELL_REFERENCE = ZERO_CELSIUS + 25;
function openCircuitVoltage(curve2, charge) {
  const { voltage, slope } = curve2;
  const last = voltage.length - 1;
  if (charge <= 0) return voltage[0] + slope[0] * charge;
  if (charge >= 1) return voltage[last] + slope[last] * (charge - 1);
  const x = charge * last;
  const k = x | 0;
  const u = x - k;
  const h = 1 / last;
  const [v0, v1, m0, m1] = [voltage[k], voltage[k + 1], slope[k] * h, slope[k + 1] * h];
  return v0 + u * (m0 + u * (3 * (v1 - v0) - 2 * m0 - m1 + u * (2 * (v0 - v1) + m0 + m1)));
}
var resistanceFactor = (activation, temperature3) => Math.exp(activation * (1 / temperature3 - 1 / CELL_REFERENCE));

// packages/sim-core/src/kernel/holds.ts
var BEYOND = 2;
function adopt({ point: point2, chainPoint }, duty) {
  point2.duty = duty;
  point2.busVoltage = chainPoint.busVoltage;
  point2.busCurrent = chainPoint.busCurrent;
  point2.current = chainPoint.current;
}
var wheelShaft = ({ system }, speed) => (system.load.kind === 'wheel' ? (speed / system.load.radius) * system.gearbox.ratio : Number.NaN);
function wheelForce({ system, point: point2, flux, gearEfficiency }, shaft) {
  const { load, gearbox: gearbox2, motor: motor2 } = system;
  if (load.kind !== 'wheel') return;
  const torque = point2.torqueConstant * point2.current - (shaft > 0 ? lossTorque(motor2, shaft, flux) : 0);
  point2.loadTorque = torque;
  point2.driverTorque = torque >= 0 ? torque * gearbox2.ratio * gearEfficiency : (torque * gearbox2.ratio) / gearEfficiency;
  point2.driverSpeed = shaft / gearbox2.ratio;
  point2.force = point2.thrust = point2.driverTorque / load.radius;
}
function wheelLoad({ system, point: point2, gearEfficiency }, force, shaft) {
  const { load, gearbox: gearbox2 } = system;
  if (load.kind !== 'wheel') return;
  point2.force = point2.thrust = force;
  point2.driverTorque = force * load.radius;
  point2.driverSpeed = shaft / gearbox2.ratio;
  point2.loadTorque = torqueBeforeGear(point2.driverTorque, gearbox2.ratio, gearEfficiency);
}
function limitCurrent(memory, duty, speed) {
  const { point: point2, chain, chainPoint, system } = memory;
  const backEmf = point2.torqueConstant * speed;
  point2.limit = mostCurrent(memory, speed).current;
  const { motorCurrentLimit } = system.controller;
  if (chainPoint.current > point2.limit) adopt(memory, solveForCurrent(chain, point2.limit, backEmf, chainPoint));
  else if (chainPoint.current < -motorCurrentLimit) brakeAt(memory, -motorCurrentLimit, backEmf);
  else adopt(memory, duty);
}
function brakeAt(memory, current, backEmf) {
  const { point: point2, chain, chainPoint } = memory;
  const duty = solveForCurrent(chain, current, backEmf, chainPoint);
  if (duty >= LEAST_DUTY && duty <= 1) {
    adopt(memory, duty);
    return;
  }
  point2.braked = true;
  const nearest = duty > 1 ? 1 : LEAST_DUTY;
  solveAtDuty(chain, nearest, point2.torqueConstant, point2.speed, chainPoint);
  adopt(memory, nearest);
}
function holdThrottle(memory, duty) {
  const { point: point2, chain, chainPoint, system, advance } = memory;
  const { load } = system;
  if (load.kind === 'wheel') {
    const shaft = wheelShaft(memory, advance);
    point2.speed = shaft;
    if (duty > 0) solveAtDuty(chain, duty, point2.torqueConstant, shaft, chainPoint);
    else solveOff(chain, chainPoint);
    point2.currentUnlimited = chainPoint.current;
    if (duty > 0) limitCurrent(memory, duty, shaft);
    else adopt(memory, 0);
    wheelForce(memory, shaft);
    return;
  }
  const speed = balanceSpeed(memory, duty, Number.NaN, load.folding && duty === 0);
  point2.speed = speed;
  if (duty === 0) {
    solveOff(chain, chainPoint);
    adopt(memory, 0);
  } else {
    point2.currentUnlimited = chainPoint.current;
    limitCurrent(memory, duty, speed);
  }
}
function letGo(memory) {
  memory.point.dutyAsked = 0;
  holdThrottle(memory, 0);
}
function outOfReach(memory) {
  holdThrottle(memory, 1);
  memory.point.dutyAsked = BEYOND;
}
function driveShaft(memory, speed) {
  const { point: point2, chain, chainPoint, system, flux } = memory;
  point2.speed = speed;
  if (speed > 0) memory.warmSpeed = speed;
  const current = (point2.loadTorque + lossTorque(system.motor, speed, flux)) / point2.torqueConstant;
  const backEmf = point2.torqueConstant * speed;
  point2.currentUnlimited = current;
  point2.limit = system.controller.motorCurrentLimit;
  if (current >= 0) {
    point2.dutyAsked = solveForCurrent(chain, current, backEmf, chainPoint);
    adopt(memory, point2.dutyAsked);
    return;
  }
  if (!chain.regenerative || speed === 0) {
    solveOff(chain, chainPoint);
    adopt(memory, 0);
    point2.braked = true;
    return;
  }
  point2.braked = current < -point2.limit;
  brakeAt(memory, Math.max(current, -point2.limit), backEmf);
  point2.dutyAsked = point2.duty;
}
function holdShaftSpeed(memory, value2) {
  const { point: point2, chain, chainPoint } = memory;
  if (value2 > 0) {
    loadAt(memory, value2, false);
    driveShaft(memory, value2);
    if (point2.braked) letGo(memory);
    return;
  }
  memory.advance = 0;
  loadAt(memory, 0, false);
  point2.speed = 0;
  point2.stalled = true;
  solveAtDuty(chain, 1, point2.torqueConstant, 0, chainPoint);
  point2.currentUnlimited = chainPoint.current;
  limitCurrent(memory, 1, 0);
}
function turnForThrust(memory, thrust) {
  const { point: point2 } = memory;
  const shaft = thrust > 0 ? speedForThrust(memory, thrust) : 0;
  if (Number.isNaN(shaft)) {
    outOfReach(memory);
    return;
  }
  if (shaft > 0) {
    loadAt(memory, shaft, false);
    driveShaft(memory, shaft);
    if (!point2.braked) return;
  }
  const asked = shaft > 0;
  letGo(memory);
  point2.braked = asked || thrust < 0;
}
function holdVehicleSpeed(memory, speed, acceleration, climb) {
  const { load } = memory.system;
  const force = forceNeeded(memory, speed, acceleration, climb);
  if (load.kind === 'wheel') driveWheel(memory, force, speed);
  else turnForThrust(memory, force / (1 - load.thrustDeduction));
}
function driveWheel(memory, force, speed) {
  const shaft = wheelShaft(memory, speed);
  wheelLoad(memory, force, shaft);
  driveShaft(memory, shaft);
  if (memory.point.braked) wheelForce(memory, shaft);
}
function holdThrust(memory, value2, speed) {
  if (memory.system.load.kind === 'wheel') driveWheel(memory, value2, speed);
  else turnForThrust(memory, value2);
}
function holdMotorCurrent(memory, value2, speed) {
  const { point: point2, chain, chainPoint, system } = memory;
  const wheel2 = system.load.kind === 'wheel';
  const shaft = wheel2 ? wheelShaft(memory, speed) : balanceSpeed(memory, 1, value2, false);
  point2.speed = shaft;
  point2.dutyAsked = solveForCurrent(chain, value2, point2.torqueConstant * shaft, chainPoint);
  adopt(memory, point2.dutyAsked);
  if (wheel2) wheelForce(memory, shaft);
  point2.currentUnlimited = value2;
  point2.limit = system.controller.motorCurrentLimit;
}
function holdBatteryPower(memory, power2) {
  const { point: point2, system } = memory;
  const drawn2 = (duty2) => {
    holdThrottle(memory, duty2);
    return point2.busVoltage * point2.busCurrent * system.drives;
  };
  let low = 1e-4;
  let high = 1;
  if (drawn2(low) >= power2) {
    point2.dutyAsked = low;
    return;
  }
  if (drawn2(1) < power2 && drawn2(1 - 1e-9) < power2) {
    outOfReach(memory);
    return;
  }
  for (let k = 0; k < 80 && high - low > 1e-13; k++) {
    const middle = 0.5 * (low + high);
    if (drawn2(middle) < power2) low = middle;
    else high = middle;
  }
  const duty = 0.5 * (low + high);
  holdThrottle(memory, duty);
  point2.dutyAsked = duty;
}

// packages/sim-core/src/kernel/solve-point.ts
function alreadySolved({ solvedTime, solvedState, speed }, t2, y2) {
  if (t2 !== solvedTime) return false;
  for (let k = 0; k <= speed; k++) if (y2[k] !== solvedState[k]) return false;
  return true;
}
function prepare(memory, y2) {
  const { system, bodyIndex, point: point2, chain } = memory;
  const { battery: battery2, motor: motor2, controller: controller2, load, wiring: wiring2, drives } = system;
  memory.cellFactor = resistanceFactor(battery2.activation, y2[bodyIndex[5]]);
  memory.flux = fluxRatio(motor2, y2[bodyIndex[3]]);
  memory.advance = load.kind === 'propeller' ? y2[memory.speed] * (1 - load.wakeFraction) : y2[memory.speed];
  point2.openCircuit = openCircuitVoltage(battery2.openCircuit, y2[memory.charge]) + battery2.voltageOffset;
  point2.torqueConstant = motor2.torqueConstant * memory.flux;
  chain.emf = battery2.cellsInSeries * (point2.openCircuit - y2[memory.polarisation]);
  chain.sourceResistance = sourceResistance(battery2, memory.cellFactor, drives, wiring2.resistance);
  chain.windingResistance = point2.windingResistance = windingResistance(motor2, y2[bodyIndex[0]]);
  chain.pathResistance = point2.pathResistance = pathResistanceAt(controller2, y2[bodyIndex[4]]);
  point2.dutyAsked = 0;
  point2.currentUnlimited = 0;
  point2.limit = Number.POSITIVE_INFINITY;
  point2.outsideTable = 0;
  point2.stalled = false;
  point2.unstable = false;
  point2.braked = false;
}
function solvePoint(memory, t2, y2) {
  if (alreadySolved(memory, t2, y2)) return;
  memory.solvedTime = t2;
  for (let k = 0; k <= memory.speed; k++) memory.solvedState[k] = y2[k];
  prepare(memory, y2);
  const { step, flatOut, hold, point: point2, chain, system } = memory;
  const speed = y2[memory.speed];
  const value2 = flatOut ? 1 : rampAt(step.value, shareAt(memory, t2));
  const imposed = step.hold === 'vehicleSpeed' ? (flatOut ? void 0 : step.value) : step.vehicleSpeed;
  const acceleration = imposed === void 0 ? Number.NaN : step.duration === 0 ? 0 : (imposed.to - imposed.from) / step.duration;
  const climb = climbAt(memory, t2, speed);
  if (hold === 'throttle') holdThrottle(memory, Math.min(1, Math.max(0, value2)));
  else if (hold === 'vehicleSpeed') holdVehicleSpeed(memory, speed, acceleration, climb);
  else if (hold === 'shaftSpeed') holdShaftSpeed(memory, value2);
  else if (hold === 'motorCurrent') holdMotorCurrent(memory, value2, speed);
  else if (hold === 'thrust') holdThrust(memory, value2, speed);
  else holdBatteryPower(memory, value2);
  point2.packCurrent = system.drives * (point2.busCurrent + chain.otherPower / point2.busVoltage);
  point2.cellVoltage =
    point2.openCircuit -
    y2[memory.polarisation] -
    (system.battery.cellResistance * memory.cellFactor * point2.packCurrent) / system.battery.cellsInParallel;
  moveUnderForce(memory, speed, acceleration, climb);
}

// packages/sim-core/src/kernel/kernel.ts
function createKernel() {
  const memory = emptyKernelMemory();
  const { point: point2, bodyIndex, capacities, heat, chain, chainPoint } = memory;
  const solve = (t2, y2) => solvePoint(memory, t2, y2);
  function derivative(t2, y2, dy2) {
    solvePoint(memory, t2, y2);
    heatFlows(memory, y2);
    const { system, bodies, charge, polarisation, speed, cellFactor } = memory;
    const { battery: battery2 } = system;
    for (let k = 0; k < bodies; k++) dy2[k] = 0;
    for (let k = 0; k < heat.length; k++) dy2[bodyIndex[k]] += heat[k];
    for (let k = 0; k < bodies; k++) dy2[k] /= capacities[k];
    dy2[charge] = -point2.packCurrent / battery2.capacity;
    dy2[polarisation] =
      (battery2.polarisationResistance * cellFactor * (point2.packCurrent / battery2.cellsInParallel) - y2[polarisation]) /
      battery2.polarisationTime;
    dy2[speed] = point2.acceleration;
  }
  return {
    get dimension() {
      return memory.bodies + 3;
    },
    point: point2,
    bodyIndex,
    load: (system) => loadSystem(memory, system),
    begin(step, from, flatOut) {
      memory.solvedTime = Number.NaN;
      memory.step = step;
      memory.stepFrom = from;
      memory.flatOut = flatOut;
      memory.hold = flatOut ? 'throttle' : step.hold;
    },
    heldSpeed: (t2) => heldSpeedAt(memory, t2),
    initial: (y2) => initialState(memory, y2),
    derivative,
    margins(t2, y2, out) {
      solvePoint(memory, t2, y2);
      eventMargins(memory, t2, y2, out);
    },
    solve,
    shaftTorque(duty, speed) {
      solveAtDuty(chain, duty, point2.torqueConstant, speed, chainPoint);
      const current = Math.min(chainPoint.current, mostCurrent(memory, speed).current);
      return point2.torqueConstant * current - (speed > 0 ? lossTorque(memory.system.motor, speed, memory.flux) : 0);
    },
    powers: (y2, out) => powerFlows(memory, y2, out),
    shed: (y2) => heatFlows(memory, y2),
  };
}

// packages/sim-core/src/numerics/integration-failure.ts
var SENTENCES = {
  'derivative-not-finite': 'a rate of change is not a finite number',
  'margin-not-finite': 'the margin of an event is not a number',
  'step-too-small': 'the step fell below what the clock resolves without meeting the tolerance',
  'too-many-steps': 'the limit on the number of steps was reached',
};
var IntegrationFailure = class extends Error {
  name = 'IntegrationFailure';
  /** last time that was reached with a good state [s] */
  time;
  kind;
  constructor(kind, time) {
    super(`The integration stopped at t = ${time} s: ${SENTENCES[kind]}.`);
    this.kind = kind;
    this.time = time;
  }
};

// packages/sim-core/src/numerics/ode-system.ts
var MOST_STEPS = 1e5;

// packages/sim-core/src/numerics/dormand-prince.ts
var [C2, C3, C4, C5] = [1 / 5, 3 / 10, 4 / 5, 8 / 9];
var A21 = 1 / 5;
var [A31, A32] = [3 / 40, 9 / 40];
var [A41, A42, A43] = [44 / 45, -56 / 15, 32 / 9];
var [A51, A52, A53, A54] = [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729];
var [A61, A62, A63, A64, A65] = [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656];
var [B1, B3, B4, B5, B6] = [35 / 384, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84];
var [E1, E3, E4, E5, E6, E7] = [71 / 57600, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];
var [D1, D3, D4, D5, D6, D7] = [
  -12715105075 / 11282082432,
  87487479700 / 32700410799,
  -10690763975 / 1880347072,
  701980252875 / 199316789632,
  -1453857185 / 822651844,
  69997945 / 29380423,
];
var SAFETY = 0.9;
var ERROR_EXPONENT = 0.17;
var MEMORY_EXPONENT = 0.04;
var LEAST_ERROR = 1e-4;
var LEAST_GROWTH = 0.2;
var MOST_GROWTH = 10;
var STABILITY_BORDER = 3.25;
var STIFF_AFTER = 15;
var NOT_STIFF_AFTER = 6;
function dormandPrinceWorkspace(dimension) {
  const array = () => new Float64Array(dimension);
  const view = { from: 0, to: 0, start: array(), end: array(), at: (t2, into) => interpolate(workspace, t2, into) };
  const workspace = {
    dimension,
    k1: array(),
    k2: array(),
    k3: array(),
    k4: array(),
    k5: array(),
    k6: array(),
    k7: array(),
    stage: array(),
    dense: new Float64Array(4 * dimension),
    densePrepared: false,
    view,
  };
  return workspace;
}
function prepareDense(workspace) {
  const { k1, k3, k4, k5, k6, k7, dense, view, dimension } = workspace;
  const { start: start2, end } = view;
  const h = view.to - view.from;
  for (let i = 0, j = 0; i < dimension; i++, j += 4) {
    const difference = end[i] - start2[i];
    const bend = h * k1[i] - difference;
    dense[j] = difference;
    dense[j + 1] = bend;
    dense[j + 2] = difference - h * k7[i] - bend;
    dense[j + 3] = h * (D1 * k1[i] + D3 * k3[i] + D4 * k4[i] + D5 * k5[i] + D6 * k6[i] + D7 * k7[i]);
  }
  workspace.densePrepared = true;
}
function interpolate(workspace, t2, into) {
  if (!workspace.densePrepared) prepareDense(workspace);
  const { dense, view, dimension } = workspace;
  const { start: start2, from, to } = view;
  const theta = (t2 - from) / (to - from);
  const rest = 1 - theta;
  for (let i = 0, j = 0; i < dimension; i++, j += 4) {
    into[i] = start2[i] + theta * (dense[j] + rest * (dense[j + 1] + theta * (dense[j + 2] + rest * dense[j + 3])));
  }
}
function startingStep(system, tolerances, t2, y2, span, work) {
  const { k1, k2, stage, dimension } = work;
  const { relative, absolute } = tolerances;
  let size = 0;
  let slope = 0;
  for (let i = 0; i < dimension; i++) {
    const scale = absolute[i] + relative * Math.abs(y2[i]);
    size += (y2[i] / scale) ** 2;
    slope += (k1[i] / scale) ** 2;
  }
  const euler = Math.min(span, size <= 1e-10 || slope <= 1e-10 ? 1e-6 * span : 0.01 * Math.sqrt(size / slope));
  for (let i = 0; i < dimension; i++) stage[i] = y2[i] + euler * k1[i];
  system.derivative(t2 + euler, stage, k2);
  let change = 0;
  for (let i = 0; i < dimension; i++) change += ((k2[i] - k1[i]) / (absolute[i] + relative * Math.abs(y2[i]))) ** 2;
  const curvature = Math.max(Math.sqrt(change) / euler, Math.sqrt(slope));
  const step = curvature <= 1e-15 ? Math.max(1e-6 * span, 1e-3 * euler) : (0.01 / curvature) ** 0.2;
  const first = Math.min(100 * euler, step, span);
  return first > 0 ? first : euler;
}
function dormandPrince(system, tolerances, from, state, to, accept, workspace = dormandPrinceWorkspace(system.dimension)) {
  const n = system.dimension;
  const { k1, k2, k3, k4, k5, k6, k7, stage, view } = workspace;
  const { start: start2, end } = view;
  const { relative, absolute } = tolerances;
  const largest = Math.min(to - from, tolerances.largestStep ?? to - from);
  const shortest = 4 * Number.EPSILON * Math.max(Math.abs(from), Math.abs(to));
  const mostSteps = tolerances.mostSteps ?? MOST_STEPS;
  let t2 = from;
  system.derivative(t2, state, k1);
  let evaluations = 1;
  for (let i = 0; i < n; i++) if (!Number.isFinite(k1[i] + state[i])) throw new IntegrationFailure('derivative-not-finite', t2);
  let wanted;
  if (!tolerances.firstStep) {
    wanted = startingStep(system, tolerances, t2, state, largest, workspace);
    evaluations++;
  } else {
    wanted = Math.min(tolerances.firstStep, largest);
  }
  let steps = 0;
  let rejected = 0;
  let memory = LEAST_ERROR ** MEMORY_EXPONENT;
  let justRejected = false;
  let beyondBorder = 0;
  let withinBorder = 0;
  let stiff = false;
  let going = true;
  start2.set(state);
  while (going) {
    if (steps + rejected >= mostSteps) throw new IntegrationFailure('too-many-steps', t2);
    const last = t2 + 1.01 * wanted >= to;
    const h = last ? to - t2 : wanted;
    for (let i = 0; i < n; i++) stage[i] = start2[i] + h * A21 * k1[i];
    system.derivative(t2 + C2 * h, stage, k2);
    for (let i = 0; i < n; i++) stage[i] = start2[i] + h * (A31 * k1[i] + A32 * k2[i]);
    system.derivative(t2 + C3 * h, stage, k3);
    for (let i = 0; i < n; i++) stage[i] = start2[i] + h * (A41 * k1[i] + A42 * k2[i] + A43 * k3[i]);
    system.derivative(t2 + C4 * h, stage, k4);
    for (let i = 0; i < n; i++) stage[i] = start2[i] + h * (A51 * k1[i] + A52 * k2[i] + A53 * k3[i] + A54 * k4[i]);
    system.derivative(t2 + C5 * h, stage, k5);
    for (let i = 0; i < n; i++) stage[i] = start2[i] + h * (A61 * k1[i] + A62 * k2[i] + A63 * k3[i] + A64 * k4[i] + A65 * k5[i]);
    const after = last ? to : t2 + h;
    system.derivative(after, stage, k6);
    for (let i = 0; i < n; i++) end[i] = start2[i] + h * (B1 * k1[i] + B3 * k3[i] + B4 * k4[i] + B5 * k5[i] + B6 * k6[i]);
    system.derivative(after, end, k7);
    evaluations += 6;
    let squares = 0;
    let slopeChange = 0;
    let stateChange = 0;
    for (let i = 0; i < n; i++) {
      const scale = absolute[i] + relative * Math.max(Math.abs(start2[i]), Math.abs(end[i]));
      const e = h * (E1 * k1[i] + 0 * k2[i] + E3 * k3[i] + E4 * k4[i] + E5 * k5[i] + E6 * k6[i] + E7 * k7[i]);
      squares += (e / scale) * (e / scale);
      const dk = (k7[i] - k6[i]) / scale;
      slopeChange += dk * dk;
      const dy2 = (end[i] - stage[i]) / scale;
      stateChange += dy2 * dy2;
    }
    const error = Math.sqrt(squares / n);
    if (error <= 1) {
      steps++;
      view.from = t2;
      view.to = after;
      workspace.densePrepared = false;
      const factor = Math.min(MOST_GROWTH, Math.max(LEAST_GROWTH, (SAFETY * memory) / error ** ERROR_EXPONENT));
      const proposed = justRejected ? Math.min(h, h * factor) : h * factor;
      wanted = Math.min(largest, last && h < wanted ? Math.max(wanted, proposed) : proposed);
      memory = Math.max(error, LEAST_ERROR) ** MEMORY_EXPONENT;
      justRejected = false;
      if (stateChange > 0 && h * h * slopeChange > STABILITY_BORDER * STABILITY_BORDER * stateChange) {
        withinBorder = 0;
        if (++beyondBorder >= STIFF_AFTER) stiff = true;
      } else if (beyondBorder > 0 && ++withinBorder >= NOT_STIFF_AFTER) {
        beyondBorder = 0;
        withinBorder = 0;
      }
      going = accept(view) && !last;
      t2 = after;
      start2.set(end);
      k1.set(k7);
    } else {
      rejected++;
      const finite = error < Number.POSITIVE_INFINITY;
      wanted = finite ? h * Math.max(LEAST_GROWTH, SAFETY / error ** ERROR_EXPONENT) : 0.5 * h;
      justRejected = true;
      if (wanted < shortest) throw new IntegrationFailure(finite ? 'step-too-small' : 'derivative-not-finite', t2);
    }
  }
  state.set(start2);
  return { steps, rejected, evaluations, nextStep: wanted, stiff };
}

// packages/sim-core/src/numerics/roots.ts
var MOST_ITERATIONS2 = 2e3;
function defined(value2, x) {
  if (Number.isNaN(value2)) throw new RangeError(`The function whose root is sought is not a number at ${x}.`);
  return value2;
}
function notBracketed(lo, hi, atLo, atHi) {
  return new RangeError(`No root is bracketed between ${lo} and ${hi}: the function is ${atLo} at the one end and ${atHi} at the other.`);
}
function requireInterval(lo, hi, tolerance) {
  if (!Number.isFinite(lo) || !Number.isFinite(hi)) throw new RangeError(`A root search needs finite ends, not ${lo} and ${hi}.`);
  if (!(tolerance >= 0)) throw new RangeError(`The tolerance of a root search must be zero or positive, not ${tolerance}.`);
}
function brent(f, lo, hi, tolerance) {
  requireInterval(lo, hi, tolerance);
  let previous = lo;
  let best = hi;
  let opposite = lo;
  let atPrevious = defined(f(lo), lo);
  let atBest = defined(f(hi), hi);
  let atOpposite = atPrevious;
  if (atPrevious === 0) return lo;
  if (atBest === 0) return hi;
  if (atPrevious > 0 === atBest > 0) throw notBracketed(lo, hi, atPrevious, atBest);
  let step = best - previous;
  let stepBefore = step;
  for (let iteration = 0; iteration < MOST_ITERATIONS2; iteration++) {
    if (atBest > 0 === atOpposite > 0) {
      opposite = previous;
      atOpposite = atPrevious;
      step = best - previous;
      stepBefore = step;
    }
    if (Math.abs(atOpposite) < Math.abs(atBest)) {
      previous = best;
      best = opposite;
      opposite = previous;
      atPrevious = atBest;
      atBest = atOpposite;
      atOpposite = atPrevious;
    }
    const smallest = 2 * Number.EPSILON * Math.abs(best) + 0.5 * tolerance;
    const half = 0.5 * (opposite - best);
    if (Math.abs(half) <= smallest || atBest === 0) return best;
    let next = half;
    let bisected = true;
    if (Math.abs(stepBefore) >= smallest && Math.abs(atPrevious) > Math.abs(atBest)) {
      const s = atBest / atPrevious;
      let p;
      let q;
      if (previous === opposite) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const r = atBest / atOpposite;
        q = atPrevious / atOpposite;
        p = s * (2 * half * q * (q - r) - (best - previous) * (r - 1));
        q = (q - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(smallest * q), Math.abs(stepBefore * q))) {
        next = p / q;
        bisected = false;
      }
    }
    stepBefore = bisected ? half : step;
    step = next;
    previous = best;
    atPrevious = atBest;
    best += Math.abs(step) > smallest ? step : half > 0 ? smallest : -smallest;
    atBest = defined(f(best), best);
  }
  throw new RangeError(`The root search between ${lo} and ${hi} did not settle in ${MOST_ITERATIONS2} iterations.`);
}

// packages/sim-core/src/numerics/event-watch.ts
var SHARE_OF_STEP = 1e-10;
var SECONDS = 1e-9;
var DIP = 0.5;
function eventWatch(system, time, state) {
  const count3 = system.eventCount;
  if (count3 === 0 || system.margins === void 0) return () => void 0;
  const point2 = new Float64Array(system.dimension);
  const before = new Float64Array(count3);
  const middle = new Float64Array(count3);
  const after = new Float64Array(count3);
  const extra = new Float64Array(count3);
  const marginsAt = (t2, y2, out) => {
    system.margins(t2, y2, out);
    for (let i = 0; i < count3; i++) if (Number.isNaN(out[i])) throw new IntegrationFailure('margin-not-finite', t2);
  };
  const stateAt = (step, t2) => {
    if (t2 === step.from) return step.start;
    if (t2 === step.to) return step.end;
    step.at(t2, point2);
    return point2;
  };
  const locate2 = (step, event, lo, hi) => {
    const margin = (t3) => {
      marginsAt(t3, stateAt(step, t3), extra);
      return extra[event];
    };
    const tolerance = Math.min(SECONDS, SHARE_OF_STEP * (step.to - step.from));
    let t2 = brent(margin, lo, hi, tolerance);
    for (let nudge = Math.max(tolerance, 2 * Number.EPSILON * Math.abs(t2)); t2 < hi && margin(t2) > 0; nudge *= 2)
      t2 = Math.min(hi, t2 + nudge);
    return t2;
  };
  const firstFall = (step, event, half) => {
    const a = before[event];
    const m = middle[event];
    const b = after[event];
    if (a > 0 && m <= 0) return locate2(step, event, step.from, half);
    if (m > 0 && b <= 0) return locate2(step, event, half, step.to);
    if (a > 0 && m > 0 && b > 0) {
      const slope = 0.5 * (b - a);
      const bend = a - 2 * m + b;
      if (bend > 0 && Math.abs(slope) < bend && m - (0.5 * slope * slope) / bend < DIP * Math.min(a, m, b)) {
        const lowest = half - (slope / bend) * (half - step.from);
        marginsAt(lowest, stateAt(step, lowest), extra);
        if (extra[event] <= 0) return locate2(step, event, slope > 0 ? step.from : half, lowest);
      }
    }
    return Number.POSITIVE_INFINITY;
  };
  marginsAt(time, state, before);
  return (step) => {
    const half = step.from + 0.5 * (step.to - step.from);
    marginsAt(half, stateAt(step, half), middle);
    marginsAt(step.to, step.end, after);
    let first = Number.POSITIVE_INFINITY;
    let winner = -1;
    for (let event = 0; event < count3; event++) {
      const fall = firstFall(step, event, half);
      if (fall < first) {
        first = fall;
        winner = event;
      }
    }
    if (winner < 0) {
      before.set(after);
      return void 0;
    }
    const found2 = Float64Array.from(stateAt(step, first));
    marginsAt(first, found2, extra);
    const crossed = [winner];
    for (let event = 0; event < count3; event++) {
      const wasPositive = before[event] > 0 || (first > half && middle[event] > 0);
      if (event !== winner && wasPositive && extra[event] <= 0) crossed.push(event);
    }
    return { time: first, state: found2, crossed };
  };
}

// packages/sim-core/src/numerics/extrapolation.ts
import { Outcome, Solver } from 'odex';

var MOST_EVALUATIONS_PER_STEP = 400;
var CAPPED_STEPS = 4;
var NOT_FINITE = /* @__PURE__ */ Symbol('a trial state without derivatives');
function extrapolation(system, tolerances, from, state, to, accept) {
  const n = system.dimension;
  const mostSteps = tolerances.mostSteps ?? MOST_STEPS;
  const shortest = 4 * Number.EPSILON * Math.max(Math.abs(from), Math.abs(to));
  const trial = new Float64Array(n);
  const slope = new Float64Array(n);
  let dense;
  const view = {
    from,
    to: from,
    start: new Float64Array(n),
    end: Float64Array.from(state),
    at(t2, into) {
      for (let i = 0; i < n; i++) into[i] = dense(i, t2);
    },
  };
  const statistics = { steps: 0, rejected: 0, evaluations: 0, nextStep: tolerances.firstStep ?? 0, stiff: false };
  let failedAt = from;
  const derivative = (t2, y2) => {
    for (let i = 0; i < n; i++) trial[i] = y2[i];
    system.derivative(t2, trial, slope);
    for (let i = 0; i < n; i++) {
      if (!Number.isFinite(slope[i] + trial[i])) {
        failedAt = t2;
        throw NOT_FINITE;
      }
    }
    if (++statistics.evaluations > MOST_EVALUATIONS_PER_STEP * mostSteps) throw new IntegrationFailure('too-many-steps', view.to);
    return slope;
  };
  let capped = 0;
  let stopped = false;
  const observer = (count3, before, t2, y2, interpolation) => {
    if (count3 === 1) return true;
    if (!(t2 - before > shortest)) throw new IntegrationFailure('step-too-small', before);
    view.from = before;
    view.to = Math.abs(t2 - to) <= shortest ? to : t2;
    view.start.set(view.end);
    for (let i = 0; i < n; i++) view.end[i] = y2[i];
    dense = interpolation;
    statistics.steps++;
    statistics.nextStep = t2 < to ? t2 - before : Math.max(statistics.nextStep, t2 - before);
    stopped = !accept(view);
    return !stopped && (capped === 0 || --capped > 0);
  };
  const solver = new Solver(n);
  solver.denseOutput = true;
  solver.relativeTolerance = tolerances.relative;
  solver.absoluteTolerance = Array.from(tolerances.absolute);
  const largest = tolerances.largestStep ?? to - from;
  let first = tolerances.firstStep || 1e-3 * (to - from);
  while (!stopped && view.to < to) {
    const begin = view.to;
    solver.initialStepSize = first;
    solver.maxStepSize = capped > 0 ? Math.min(first, largest) : largest;
    solver.maxSteps = mostSteps - statistics.steps - statistics.rejected;
    if (solver.maxSteps <= 0) throw new IntegrationFailure('too-many-steps', begin);
    try {
      const solution = solver.solve(derivative, begin, Array.from(view.end), to, observer);
      statistics.rejected += solution.nReject;
      if (solution.outcome === Outcome.MaxStepsExceeded) throw new IntegrationFailure('too-many-steps', view.to);
      if (solution.outcome === Outcome.Converged) break;
      first = statistics.nextStep;
    } catch (thrown) {
      if (thrown !== NOT_FINITE) throw thrown;
      statistics.rejected++;
      first = 0.5 * (failedAt - view.to);
      if (!(first > shortest)) throw new IntegrationFailure('derivative-not-finite', view.to);
      capped = CAPPED_STEPS;
    }
  }
  state.set(view.end);
  return statistics;
}

// packages/sim-core/src/numerics/integrate.ts
function requireSound(system, tolerances, t02, y0, t1) {
  const { relative, absolute, firstStep, largestStep, mostSteps } = tolerances;
  if (!(Number.isFinite(t02) && Number.isFinite(t1) && t1 >= t02)) {
    throw new RangeError(`An integration runs forward between finite times, not from ${t02} s to ${t1} s.`);
  }
  if (y0.length !== system.dimension || absolute.length !== system.dimension) {
    throw new RangeError(`A system of ${system.dimension} states was given ${y0.length} initial values and ${absolute.length} tolerances.`);
  }
  if (!(relative >= 0) || !absolute.every((each) => each > 0)) {
    throw new RangeError('The relative tolerance must not be negative and every absolute tolerance must be positive.');
  }
  for (const limit of [largestStep, mostSteps]) {
    if (limit !== void 0 && !(limit > 0)) throw new RangeError(`A limit on steps must be positive, not ${limit}.`);
  }
  if (firstStep !== void 0 && !(firstStep >= 0)) throw new RangeError(`A first step must not be negative, but is ${firstStep}.`);
  if (system.eventCount > 0 && system.margins === void 0) throw new RangeError('A system with events must tell their margins.');
}
function integrate(system, method, tolerances, t02, y0, t1, onStep, workspace) {
  requireSound(system, tolerances, t02, y0, t1);
  if (t1 === t02) {
    return {
      time: t02,
      reason: 'end',
      crossed: [],
      steps: 0,
      rejected: 0,
      evaluations: 0,
      nextStep: tolerances.firstStep ?? 0,
      stiff: false,
    };
  }
  const watch = eventWatch(system, t02, y0);
  let found2;
  const accept = (step) => {
    found2 = watch(step);
    onStep?.(
      found2 === void 0
        ? step
        : { from: step.from, to: found2.time, start: step.start, end: found2.state, at: (t2, into) => step.at(t2, into) },
    );
    return found2 === void 0;
  };
  const statistics =
    method === 'odex'
      ? extrapolation(system, tolerances, t02, y0, t1, accept)
      : dormandPrince(system, tolerances, t02, y0, t1, accept, workspace);
  const stop = found2;
  if (stop === void 0) return { ...statistics, time: t1, reason: 'end', crossed: [] };
  y0.set(stop.state);
  return { ...statistics, time: stop.time, reason: 'event', event: stop.crossed[0], crossed: stop.crossed };
}

// packages/sim-core/src/numerics/quadrature.ts
function symmetricRule(positive2, weights) {
  const mirrored = positive2.filter((x) => x > 0);
  const rising2 = positive2.toReversed().filter((x) => x > 0);
  const middle = positive2.includes(0) ? [0.5] : [];
  const side = weights.slice(0, mirrored.length).map((w) => w / 2);
  const middleWeight = positive2.includes(0) ? [weights[weights.length - 1] / 2] : [];
  return {
    nodes: [...mirrored.map((x) => (1 - x) / 2), ...middle, ...rising2.map((x) => (1 + x) / 2)],
    weights: [...side, ...middleWeight, ...side.toReversed()],
  };
}
var GAUSS_LEGENDRE_3 = symmetricRule([Math.sqrt(3 / 5), 0], [5 / 9, 8 / 9]);
var _GAUSS_LEGENDRE_5 = symmetricRule(
  [Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, 0],
  [(322 - 13 * Math.sqrt(70)) / 900, (322 + 13 * Math.sqrt(70)) / 900, 128 / 225],
);
function quadratureWorkspace(dimension, quantities) {
  return { state: new Float64Array(dimension), integrands: new Float64Array(quantities) };
}
function addStepIntegrals(step, rule2, quantities, sums, workspace) {
  const { state, integrands } = workspace;
  const { nodes, weights } = rule2;
  const length = step.to - step.from;
  for (let point2 = 0; point2 < nodes.length; point2++) {
    const t2 = step.from + length * nodes[point2];
    step.at(t2, state);
    quantities(t2, state, integrands);
    const weight = length * weights[point2];
    for (let i = 0; i < sums.length; i++) sums[i] = sums[i] + weight * integrands[i];
  }
  for (let i = 0; i < sums.length; i++) {
    if (Number.isNaN(sums[i])) throw new RangeError(`Integral ${i + 1} is not a number on the step from ${step.from} s to ${step.to} s.`);
  }
}

// packages/sim-core/src/results/power-terms.ts
var POWER_TERMS = {
  batteryChemical: { words: 'out of the cells', kind: 'source' },
  batteryLoss: { words: 'cells', kind: 'loss' },
  polarisationStored: { words: 'held in the cells\u2019 slow part', kind: 'store' },
  wiringLoss: { words: 'wiring', kind: 'loss' },
  otherLoads: { words: 'other loads', kind: 'use' },
  controllerIdle: { words: 'controller idle', kind: 'loss' },
  controllerConduction: { words: 'controller conduction', kind: 'loss' },
  controllerSwitching: { words: 'controller switching', kind: 'loss' },
  copperLoss: { words: 'copper', kind: 'loss' },
  ironLoss: { words: 'iron', kind: 'loss' },
  frictionLoss: { words: 'bearings and windage', kind: 'loss' },
  gearLoss: { words: 'gear and shaft', kind: 'loss' },
  propellerLoss: { words: 'propeller', kind: 'loss' },
  useful: { words: 'moves the vehicle', kind: 'use' },
};
var POWER_TERM_IDS = Object.keys(POWER_TERMS);

// packages/sim-core/src/studies/energy-account.ts
var TERMS = POWER_TERM_IDS.length;
var DRAG = TERMS;
var CLIMB = TERMS + 1;
var KINETIC = TERMS + 2;
var SHED = TERMS + 3;
var QUANTITIES = TERMS + 4;
function energyMeter(kernel2, system) {
  const { vehicle: vehicle2, drives, heat } = system;
  const moving = vehicle2.carriedBy !== 'bench';
  const inertia = moving ? vehicle2.mass * (1 + vehicle2.addedMass) : 0;
  const energy = new Float64Array(QUANTITIES);
  const workspace = quadratureWorkspace(kernel2.dimension, QUANTITIES);
  let imposed = 0;
  const quantities = (t2, y2, out) => {
    kernel2.solve(t2, y2);
    kernel2.powers(y2, out);
    for (let k = 0; k < TERMS; k++) out[k] *= drives;
    const { point: point2 } = kernel2;
    const speed = y2[kernel2.dimension - 1];
    out[DRAG] = point2.drag * speed;
    out[CLIMB] = moving ? vehicle2.mass * STANDARD_GRAVITY * point2.climb * speed : 0;
    out[KINETIC] = inertia * point2.acceleration * speed;
    out[SHED] = kernel2.shed(y2) * drives;
  };
  const stored = (y2) => {
    let sum = 0;
    for (let k = 0; k < BODIES.length; k++) {
      const capacity2 = heat.capacity[BODIES[k]];
      const shared = BODIES[k] === 'cells' ? 1 : drives;
      if (capacity2 !== Number.POSITIVE_INFINITY) sum += capacity2 * y2[kernel2.bodyIndex[k]] * shared;
    }
    return sum;
  };
  return {
    add: (step) => addStepIntegrals(step, GAUSS_LEGENDRE_3, quantities, energy, workspace),
    jump(before, after) {
      imposed += 0.5 * inertia * (after ** 2 - before ** 2);
    },
    account(initial, final) {
      const terms = Object.fromEntries(POWER_TERM_IDS.map((id, k) => [id, energy[k]]));
      const spent = POWER_TERM_IDS.slice(1).reduce((sum, id) => sum + terms[id], 0);
      return {
        terms,
        drag: energy[DRAG],
        climb: energy[CLIMB],
        kinetic: energy[KINETIC] + imposed,
        imposed: energy[DRAG] + energy[CLIMB] + energy[KINETIC] - terms.useful + imposed,
        heatStored: stored(final) - stored(initial),
        heatShed: energy[SHED],
        residual: terms.batteryChemical === 0 ? 0 : (terms.batteryChemical - spent) / terms.batteryChemical,
      };
    },
  };
}

// packages/sim-core/src/results/channels.ts
var channel = (c) => c;
var temperature = (words2, symbol) => ({
  words: words2,
  symbol,
  part: 'heat',
  dimension: 'temperature',
  shown: '\xB0C',
  suffix: 'degC',
  decimals: 0,
});
var power = (words2, symbol, part) => ({
  words: words2,
  symbol,
  part,
  dimension: 'power',
  shown: 'W',
  suffix: 'W',
  decimals: 0,
});
var CHANNELS = {
  throttle: channel({
    words: 'throttle',
    symbol: 'd',
    part: 'controller',
    dimension: 'fraction',
    shown: '%',
    suffix: 'percent',
    decimals: 0,
  }),
  vehicleSpeed: channel({ words: 'speed', symbol: 'v', part: 'vehicle', dimension: 'speed', shown: 'm/s', suffix: 'm_per_s', decimals: 2 }),
  climbRate: channel({
    words: 'climb rate',
    symbol: 'w',
    part: 'vehicle',
    dimension: 'speed',
    shown: 'm/s',
    suffix: 'm_per_s',
    decimals: 1,
  }),
  shaftSpeed: channel({
    words: 'motor speed',
    symbol: '\u03C9',
    part: 'motor',
    dimension: 'angularSpeed',
    shown: 'rpm',
    suffix: 'rpm',
    decimals: 0,
  }),
  motorTorque: channel({
    words: 'motor torque',
    symbol: 'M',
    part: 'motor',
    dimension: 'torque',
    shown: 'N\xB7m',
    suffix: 'Nm',
    decimals: 3,
  }),
  thrust: channel({ words: 'thrust', symbol: 'F', part: 'load', dimension: 'force', shown: 'N', suffix: 'N', decimals: 1 }),
  motorCurrent: channel({ words: 'motor current', symbol: 'i', part: 'motor', dimension: 'current', shown: 'A', suffix: 'A', decimals: 1 }),
  batteryCurrent: channel({
    words: 'battery current',
    symbol: 'i_b',
    part: 'battery',
    dimension: 'current',
    shown: 'A',
    suffix: 'A',
    decimals: 1,
  }),
  busVoltage: channel({
    words: 'voltage at the controller',
    symbol: 'v_bus',
    part: 'controller',
    dimension: 'voltage',
    shown: 'V',
    suffix: 'V',
    decimals: 2,
  }),
  cellVoltage: channel({
    words: 'loaded cell voltage',
    symbol: 'v_c',
    part: 'battery',
    dimension: 'voltage',
    shown: 'V',
    suffix: 'V',
    decimals: 2,
  }),
  charge: channel({
    words: 'charge left',
    symbol: 's',
    part: 'battery',
    dimension: 'fraction',
    shown: '%',
    suffix: 'percent',
    decimals: 0,
  }),
  batteryPower: power('battery power', 'P_b', 'battery'),
  inputPower: power('motor input power', 'P_in', 'motor'),
  shaftPower: power('motor shaft power', 'P_s', 'motor'),
  copperLoss: power('copper loss', 'P_cu', 'motor'),
  noLoadLoss: power('iron, friction and windage loss', 'P_0', 'motor'),
  controllerLoss: power('controller loss', 'P_c', 'controller'),
  windingTemperature: temperature('winding', 'T_w'),
  statorTemperature: temperature('stator iron', 'T_s'),
  canTemperature: temperature('can', 'T_c'),
  magnetTemperature: temperature('magnets', 'T_m'),
  controllerTemperature: temperature('controller', 'T_k'),
  cellTemperature: temperature('cells', 'T_b'),
};
var CHANNEL_IDS = Object.keys(CHANNELS);

// packages/sim-core/src/studies/observe.ts
var CHANNEL_INDEX = Object.fromEntries(CHANNEL_IDS.map((id, k) => [id, k]));
var at = CHANNEL_INDEX;
var powers = new Float64Array(POWER_TERM_IDS.length);
function observeInto(kernel2, t2, y2, row) {
  kernel2.solve(t2, y2);
  kernel2.powers(y2, powers);
  const { point: point2, bodyIndex, dimension } = kernel2;
  const speed = y2[dimension - 1];
  row[at.throttle] = point2.duty;
  row[at.vehicleSpeed] = speed;
  row[at.climbRate] = speed * point2.climb;
  row[at.shaftSpeed] = point2.speed;
  row[at.motorTorque] = point2.loadTorque;
  row[at.thrust] = point2.thrust;
  row[at.motorCurrent] = point2.current;
  row[at.batteryCurrent] = point2.packCurrent;
  row[at.busVoltage] = point2.busVoltage;
  row[at.cellVoltage] = point2.cellVoltage;
  row[at.charge] = y2[dimension - 3];
  row[at.batteryPower] = point2.busVoltage * point2.packCurrent;
  row[at.inputPower] = (point2.windingResistance * point2.current + point2.torqueConstant * point2.speed) * point2.current;
  row[at.shaftPower] = point2.loadTorque * point2.speed;
  row[at.copperLoss] = powers[8];
  row[at.noLoadLoss] = powers[9] + powers[10];
  row[at.controllerLoss] = powers[5] + powers[6] + powers[7];
  row[at.windingTemperature] = y2[bodyIndex[0]];
  row[at.statorTemperature] = y2[bodyIndex[1]];
  row[at.canTemperature] = y2[bodyIndex[2]];
  row[at.magnetTemperature] = y2[bodyIndex[3]];
  row[at.controllerTemperature] = y2[bodyIndex[4]];
  row[at.cellTemperature] = y2[bodyIndex[5]];
}

// packages/sim-core/src/studies/extremes-watch.ts
var TEMPERATURE_CHANNELS = [
  'windingTemperature',
  'statorTemperature',
  'canTemperature',
  'magnetTemperature',
  'controllerTemperature',
  'cellTemperature',
];
function extremesWatch(kernel2) {
  const count3 = CHANNEL_IDS.length;
  const row = new Float64Array(count3);
  const most = new Float64Array(count3).fill(Number.NEGATIVE_INFINITY);
  const least = new Float64Array(count3).fill(Number.POSITIVE_INFINITY);
  const mostTime = new Float64Array(count3);
  const leastTime = new Float64Array(count3);
  const state = new Float64Array(kernel2.dimension);
  const first = CHANNEL_INDEX.windingTemperature;
  let outsideTable = 0;
  const rates = new Float64Array(kernel2.dimension);
  const record = (values, times) => Object.fromEntries(CHANNEL_IDS.map((id, k) => [id, { value: values[k], time: times[k] }]));
  return {
    note(t2, y2) {
      observeInto(kernel2, t2, y2, row);
      const { point: point2 } = kernel2;
      if (point2.duty > 0 && Math.abs(point2.outsideTable) > Math.abs(outsideTable)) outsideTable = point2.outsideTable;
      for (let k = 0; k < count3; k++) {
        if (row[k] > most[k]) {
          most[k] = row[k];
          mostTime[k] = t2;
        }
        if (row[k] < least[k]) {
          least[k] = row[k];
          leastTime[k] = t2;
        }
      }
    },
    refine(step) {
      const { from, to, start: start2, end } = step;
      const span = to - from;
      step.at(from + 0.5 * span, rates);
      for (let body = 0; body < TEMPERATURE_CHANNELS.length; body++) {
        const index = kernel2.bodyIndex[body];
        const bend = start2[index] - 2 * rates[index] + end[index];
        const rise = end[index] - start2[index];
        if (!(bend < 0 && Math.abs(rise) < -2 * bend)) continue;
        let [a, c] = [from, to];
        for (let pass = 0; pass < 3 && c - a > 1e-6; pass++) {
          const b = 0.5 * (a + c);
          const [fa, fb, fc] = [a, b, c].map((t3) => {
            step.at(t3, state);
            return state[index];
          });
          const curve2 = fa - 2 * fb + fc;
          if (!(curve2 < 0)) break;
          const t2 = Math.min(to, Math.max(from, b + (0.25 * (c - a) * (fa - fc)) / curve2));
          step.at(t2, state);
          if (state[index] > most[first + body]) {
            most[first + body] = state[index];
            mostTime[first + body] = t2;
          }
          const width = 0.125 * (c - a);
          [a, c] = [Math.max(from, t2 - width), Math.min(to, t2 + width)];
        }
      }
    },
    get outsideTable() {
      return outsideTable;
    },
    highest: () => record(most, mostTime),
    lowest: () => record(least, leastTime),
  };
}

// packages/sim-core/src/studies/trace-recorder.ts
var SAMPLES = 1200;
function traceRecorder(kernel2, span) {
  const spacing = span / SAMPLES;
  const row = new Float64Array(CHANNEL_IDS.length);
  const state = new Float64Array(kernel2.dimension);
  const time = [];
  const columns = CHANNEL_IDS.map(() => []);
  const states = [];
  let next = spacing;
  const sample = (t2, y2) => {
    observeInto(kernel2, t2, y2, row);
    time.push(t2);
    columns.forEach((column, k) => {
      column.push(row[k]);
    });
    states.push(y2.slice());
  };
  return {
    sample,
    follow(step) {
      for (; next <= step.to; next += spacing) {
        if (next < step.from) continue;
        step.at(next, state);
        sample(next, state);
      }
    },
    trace: { time, ...Object.fromEntries(CHANNEL_IDS.map((id, k) => [id, columns[k]])) },
    states,
  };
}

// packages/sim-core/src/studies/simulate.ts
var LONGEST = 24 * SECONDS_PER_HOUR;
var isLimit = (event) => event !== 'holdLost' && event !== 'holdRegained' && event !== 'limiterEntered' && event !== 'limiterLeft';
function simulate(system, profile2, options = {}) {
  const { method = 'odex', relative = 1e-6, record = true, again = false, keepAt } = options;
  const kernel2 = createKernel();
  kernel2.load(system);
  const n = kernel2.dimension;
  const y2 = new Float64Array(n);
  kernel2.initial(y2);
  const initialState2 = y2.slice();
  const absolute = new Float64Array(n).fill(relative * 100);
  absolute[n - 3] = relative * 0.1;
  absolute[n - 2] = relative;
  absolute[n - 1] = relative * 10;
  const ode = {
    dimension: n,
    derivative: kernel2.derivative,
    eventCount: KERNEL_EVENTS.length,
    margins: kernel2.margins,
  };
  const workspace = dormandPrinceWorkspace(n);
  const extremes = extremesWatch(kernel2);
  const energies = record ? energyMeter(kernel2, system) : void 0;
  const recorder = record ? traceRecorder(kernel2, profileDuration(profile2)) : void 0;
  const passed = /* @__PURE__ */ new Map();
  const kept = [];
  const lost = [];
  const limited = [];
  const braked = /* @__PURE__ */ new Set();
  const stalled = /* @__PURE__ */ new Set();
  const unstable = /* @__PURE__ */ new Set();
  let failure;
  const margins = new Float64Array(KERNEL_EVENTS.length);
  const state = new Float64Array(n);
  let time = 0;
  let steps = 0;
  let evaluations = 0;
  let end = 'finished';
  let index = 0;
  const keep = (step) => {
    while (keepAt !== void 0 && kept.length < keepAt.length && keepAt[kept.length] <= step.to) {
      const row = new Float64Array(n);
      step.at(keepAt[kept.length], row);
      kept.push(row);
    }
  };
  const onStep = (step) => {
    extremes.note(step.to, step.end);
    keep(step);
    extremes.refine(step);
    if (!record) return;
    energies.add(step);
    for (const share2 of [0.25, 0.5, 0.75]) {
      const t2 = step.from + share2 * (step.to - step.from);
      step.at(t2, state);
      extremes.note(t2, state);
    }
    recorder.follow(step);
  };
  const tolerances = { relative, absolute, mostSteps: 2e5 };
  running: do {
    index = 0;
    for (const step of profile2) {
      const stepFrom = time;
      const stepTo = time + step.duration;
      kernel2.begin(step, stepFrom, false);
      const held = kernel2.heldSpeed(stepFrom);
      if (!Number.isNaN(held)) {
        if (held !== y2[n - 1]) energies?.jump(y2[n - 1], held);
        y2[n - 1] = held;
      }
      let flatOut = false;
      const outOfReach2 = () => {
        kernel2.margins(time, y2, margins);
        return step.hold !== 'throttle' && !(margins[7] >= 0);
      };
      if (outOfReach2()) {
        flatOut = true;
        lost.push({ step: index, time, wanted: step.value.to, reached: 0 });
        kernel2.begin(step, stepFrom, true);
      }
      noteMargins();
      extremes.note(time, y2);
      if (time === 0) {
        recorder?.sample(0, y2);
        keep({ to: 0, at: (_, into) => into.set(y2) });
      }
      const breaks = rampBreaks(step, stepFrom);
      let guard = 0;
      while (time < stepTo - 1e-9) {
        if (++guard > 2e3) throw new RangeError(`The run changes its mode without end near ${time} s.`);
        const target = breaks.find((each) => each > time + 1e-9) ?? stepTo;
        const outcome = advance(target);
        if (outcome === void 0) break running;
        steps += outcome.steps;
        evaluations += outcome.evaluations;
        time = outcome.time;
        for (const crossed of outcome.crossed) {
          const event = KERNEL_EVENTS[crossed];
          if (!passed.has(event)) passed.set(event, time);
          if (event === 'holdLost' && !flatOut) {
            flatOut = true;
            lost.push({ step: index, time, wanted: step.value.to, reached: 0 });
            kernel2.begin(step, stepFrom, true);
          } else if (event === 'holdRegained' && flatOut) {
            kernel2.begin(step, stepFrom, false);
            y2[n - 1] = kernel2.heldSpeed(time);
            flatOut = outOfReach2();
            if (flatOut) kernel2.begin(step, stepFrom, true);
          } else if (event === 'limiterEntered') limited.push({ step: index, time });
          if (event === 'cellVoltage' || event === 'empty') {
            end = event === 'empty' ? 'empty' : 'cut-off';
            break running;
          }
        }
        kernel2.solve(time, y2);
        if (kernel2.point.braked) braked.add(index);
        if (kernel2.point.stalled && kernel2.point.duty > 0) stalled.add(index);
        if (kernel2.point.unstable) unstable.add(index);
      }
      if (flatOut) {
        const open = lost[lost.length - 1];
        if (open !== void 0 && open.step === index) lost[lost.length - 1] = { ...open, reached: reachedOf(step) };
      }
      time = stepTo;
      index++;
    }
  } while (again && time < LONGEST);
  function advance(target) {
    try {
      return integrate(ode, method, tolerances, time, y2, target, onStep, workspace);
    } catch (error) {
      if (!(error instanceof IntegrationFailure)) throw error;
      failure = { step: index, time: error.time, why: error.message };
      end = 'failed';
      return void 0;
    }
  }
  function reachedOf(step) {
    kernel2.solve(time, y2);
    const { point: point2 } = kernel2;
    switch (step.hold) {
      case 'vehicleSpeed':
        return y2[n - 1];
      case 'shaftSpeed':
        return point2.speed;
      case 'motorCurrent':
        return point2.current;
      case 'thrust':
        return point2.force;
      case 'batteryPower':
        return point2.busVoltage * point2.packCurrent;
      default:
        return point2.duty;
    }
  }
  function noteMargins() {
    kernel2.margins(time, y2, margins);
    KERNEL_EVENTS.forEach((event, k) => {
      if (isLimit(event) && margins[k] <= 0 && !passed.has(event)) passed.set(event, time);
      if (event === 'limiterEntered' && margins[k] < 0) limited.push({ step: index, time });
    });
    if (margins[4] <= 0 || margins[5] <= 0) end = margins[5] <= 0 ? 'empty' : 'cut-off';
  }
  if (record) {
    extremes.note(time, y2);
    if (recorder.trace.time[recorder.trace.time.length - 1] < time) recorder.sample(time, y2);
  }
  return {
    end,
    time,
    state: y2,
    kernel: kernel2,
    initialState: initialState2,
    passed,
    highest: extremes.highest(),
    lowest: extremes.lowest(),
    kept,
    recorded: record ? { trace: recorder.trace, states: recorder.states, energy: energies.account(initialState2, y2) } : void 0,
    lost,
    limited,
    outsideTable: extremes.outsideTable,
    braked,
    stalled,
    unstable,
    ...(failure === void 0 ? {} : { failure }),
    steps,
    evaluations,
  };
}
function rampBreaks(step, from) {
  const { from: a, to: b } = step.value;
  if (step.hold !== 'throttle' || a === b) return [];
  const share2 = (1 - SWITCHING_FADE - a) / (b - a);
  return share2 > 0 && share2 < 1 ? [from + share2 * step.duration] : [];
}

// test/bench/reference-system.ts
import { readFileSync } from 'node:fs';

// packages/sim-core/src/parts/propeller/polynomial-table.ts
function evaluatePolynomial(polynomial, x) {
  let sum = 0;
  for (let power2 = polynomial.length - 1; power2 >= 0; power2--) sum = sum * x + polynomial[power2];
  return sum;
}
function polynomialSlope(polynomial, x) {
  let sum = 0;
  for (let power2 = polynomial.length - 1; power2 >= 1; power2--) sum = sum * x + power2 * polynomial[power2];
  return sum;
}
function firstZero(polynomial, limit) {
  const steps = 400;
  let low = 0;
  if (!(evaluatePolynomial(polynomial, low) > 0)) return void 0;
  for (let i = 1; i <= steps; i++) {
    let high = (limit * i) / steps;
    if (evaluatePolynomial(polynomial, high) <= 0) {
      for (let halving = 0; halving < 60; halving++) {
        const middle = (low + high) / 2;
        if (evaluatePolynomial(polynomial, middle) > 0) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    }
    low = high;
  }
  return void 0;
}
var LARGEST_ADVANCE_RATIO = 5;
function tableFromPolynomial(fit) {
  const upTo = fit.upTo ?? firstZero(fit.thrust, LARGEST_ADVANCE_RATIO);
  if (upTo === void 0) {
    throw new RangeError(
      `the thrust polynomial does not fall to zero below an advance ratio of ${LARGEST_ADVANCE_RATIO}; say up to which advance ratio it holds`,
    );
  }
  return tableFromPieces([{ to: upTo, thrust: fit.thrust, power: fit.power }], upTo);
}
function tableFromPieces(pieces, supportedTo) {
  let from = 0;
  const rows = [];
  for (const [index, piece] of pieces.entries()) {
    if (!(piece.to > from) || !Number.isFinite(piece.to)) {
      throw new RangeError(`a polynomial holds up to an advance ratio above ${from}, not up to ${piece.to}`);
    }
    for (const polynomial of [piece.thrust, piece.power]) {
      if (polynomial.length === 0 || polynomial.length > 4 || !polynomial.every(Number.isFinite)) {
        throw new RangeError(
          'a polynomial in the advance ratio has one to four finite coefficients, c0 + c1\xB7J + c2\xB7J\xB2 + c3\xB7J\xB3',
        );
      }
    }
    if (index === 0) rows.push({ at: 0, piece });
    rows.push({ at: piece.to, piece });
    from = piece.to;
  }
  const column = (take) => Float64Array.from(rows, take);
  return {
    advanceRatio: column((row) => row.at),
    logReynolds: Float64Array.of(0),
    thrust: column((row) => evaluatePolynomial(row.piece.thrust, row.at)),
    power: column((row) => evaluatePolynomial(row.piece.power, row.at)),
    thrustSlope: column((row) => polynomialSlope(row.piece.thrust, row.at)),
    powerSlope: column((row) => polynomialSlope(row.piece.power, row.at)),
    evenStep: rows.length === 2 ? from : 0,
    supported: { from: 0, to: supportedTo },
  };
}

// packages/sim-core/src/quantities/dimension-facts.ts
var CELSIUS = [/^[CF]$|^°$|^deg$/, 'write \xB0C or degC, \xB0F or degF'];
var WEIGHT = [/^k?g$|^oz$|^lbs?$/, 'a force in grams or ounces is written gf, kgf, ozf or lbf'];
var TURNING_WEIGHT = [/\bk?g\b|\boz\b|\blbs?\b/, 'a torque in kilograms or ounces is written kgf\xB7cm, ozf\xB7in or lbf\xB7in'];
var NANOMETRE = [/^nm$/, 'write N\xB7m or Nm'];
var CAPACITY = [/W|J/, 'a charge is in A\xB7h; divide W\xB7h by the nominal voltage'];
var KV = [/^kv$/i, 'Kv is the name of the quantity; its unit is rpm/V'];
var MINUTES = [/^['\u2032\u2019]$/, 'write min'];
var INCHES = [/^["\u201d]$|^['\u2032\u2019]{2}$/, 'write in'];
var DIMENSION_FACTS = {
  temperature: { words: 'temperature', shown: '\xB0C', spread: 'normal', hints: [CELSIUS] },
  temperatureDifference: { words: 'temperature difference', shown: 'K', spread: 'normal', hints: [CELSIUS] },
  temperatureCoefficient: { words: 'temperature coefficient', shown: '%/K', spread: 'normal' },
  conductance: { words: 'thermal conductance', shown: 'W/K', spread: 'log-normal' },
  heatCapacity: { words: 'heat capacity', shown: 'J/K', spread: 'log-normal' },
  specificHeat: { words: 'specific heat', shown: 'J/(kg\xB7K)', spread: 'log-normal' },
  thermalConductivity: { words: 'thermal conductivity', shown: 'W/(m\xB7K)', spread: 'log-normal' },
  heatTransferCoefficient: { words: 'heat transfer coefficient', shown: 'W/(m\xB2\xB7K)', spread: 'log-normal' },
  current: { words: 'current', shown: 'A', spread: 'log-normal' },
  voltage: { words: 'voltage', shown: 'V', spread: 'log-normal' },
  resistance: { words: 'resistance', shown: 'mohm', spread: 'log-normal' },
  inductance: { words: 'inductance', shown: '\xB5H', spread: 'log-normal' },
  capacitance: { words: 'capacitance', shown: '\xB5F', spread: 'log-normal' },
  charge: { words: 'charge', shown: 'A\xB7h', spread: 'log-normal', hints: [CAPACITY] },
  power: { words: 'power', shown: 'W', spread: 'log-normal' },
  energy: { words: 'energy', shown: 'W\xB7h', spread: 'log-normal', refuses: ['N', 'Nm', 'Ncm', 'Nmm', 'kgf', 'gf', 'ozf', 'lbf'] },
  angle: { words: 'angle', shown: '\xB0', spread: 'normal' },
  angularSpeed: { words: 'angular speed', shown: 'rpm', spread: 'log-normal', refuses: ['C'] },
  speedConstant: { words: 'speed constant', shown: 'rpm/V', spread: 'log-normal', refuses: ['C'], hints: [KV] },
  torque: { words: 'torque', shown: 'mN\xB7m', spread: 'log-normal', refuses: ['J', 'W', 'Wh', 'Ws'], hints: [TURNING_WEIGHT, NANOMETRE] },
  torqueConstant: { words: 'torque constant', shown: 'mN\xB7m/A', spread: 'log-normal', radians: [-1] },
  torquePerSpeed: { words: 'torque per angular speed', shown: 'mN\xB7m/krpm', spread: 'log-normal', radians: [0] },
  torquePerSpeedSquared: {
    words: 'torque per square of angular speed',
    shown: 'mN\xB7m/krpm\xB2',
    spread: 'log-normal',
    radians: [0],
    refuses: ['g'],
  },
  inertia: { words: 'moment of inertia', shown: 'g\xB7cm\xB2', spread: 'log-normal' },
  frequency: { words: 'frequency', shown: 'kHz', spread: 'log-normal', refuses: ['C'] },
  dischargeRate: { words: 'discharge rate', shown: 'C', spread: 'log-normal', refuses: ['Hz'] },
  time: { words: 'time', shown: 's', spread: 'log-normal', hints: [MINUTES] },
  length: { words: 'length', shown: 'mm', spread: 'log-normal', hints: [INCHES] },
  area: { words: 'area', shown: 'm\xB2', spread: 'log-normal' },
  volume: { words: 'volume', shown: 'L', spread: 'log-normal' },
  wireGauge: { words: 'wire gauge or cross-section', shown: 'AWG', spread: 'log-normal' },
  mass: { words: 'mass', shown: 'g', spread: 'log-normal' },
  speed: { words: 'speed', shown: 'm/s', spread: 'normal' },
  acceleration: { words: 'acceleration', shown: 'm/s\xB2', spread: 'normal' },
  force: { words: 'force', shown: 'N', spread: 'log-normal', hints: [WEIGHT] },
  pressure: { words: 'pressure', shown: 'hPa', spread: 'log-normal' },
  density: { words: 'density', shown: 'kg/m\xB3', spread: 'log-normal' },
  viscosity: { words: 'dynamic viscosity', shown: 'mPa\xB7s', spread: 'log-normal' },
  kinematicViscosity: { words: 'kinematic viscosity', shown: 'mm\xB2/s', spread: 'log-normal' },
  massFlow: { words: 'mass flow', shown: 'g/s', spread: 'log-normal' },
  volumeFlow: { words: 'volume flow', shown: 'L/min', spread: 'log-normal' },
  fraction: { words: 'fraction', shown: '%', spread: 'normal' },
  ratio: { words: 'ratio', shown: '1', spread: 'log-normal', refuses: ['%'] },
};
function named(dimension) {
  const { words: words2 } = DIMENSION_FACTS[dimension];
  return `${/^[aeiou]/.test(words2) ? 'an' : 'a'} ${words2}`;
}

// packages/sim-core/src/quantities/plain-text.ts
var SUPERSCRIPTS = '\u2070\xB9\xB2\xB3\u2074\u2075\u2076\u2077\u2078\u2079';
var SUPERSCRIPT_RUN = /([⁺⁻]?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+)/g;
function plainText(text2) {
  return text2
    .replace(SUPERSCRIPT_RUN, (_, sign, digits) => {
      const flat = Array.from(digits, (digit) => SUPERSCRIPTS.indexOf(digit)).join('');
      return `^${sign === '\u207B' ? '-' : ''}${flat}`;
    })
    .replace(/[º˚]/g, '\xB0')
    .normalize('NFKC')
    .replace(/\u2212/g, '-')
    .replace(/[\u22c5\u2022\u2219\u00d7*]/g, '\xB7')
    .replace(/\u2215/g, '/')
    .replace(/\+\s?\/\s?-|\+-/g, '\xB1')
    .replace(/[\u00ad\u200b\u2060\ufeff]/g, '')
    .replace(/(°|\bdeg) (?=[CF]\b)/g, '$1')
    .replace(/\s+/g, ' ')
    .trim();
}

// packages/sim-core/src/quantities/unit-parser.ts
var ONE = { times: 1, over: 1, powers: [0, 0, 0, 0, 0, 0], symbols: [] };
var greatestCommonDivisor = (a, b) => (b === 0 ? a : greatestCommonDivisor(b, a % b));
function reduced(unit) {
  if (!Number.isSafeInteger(unit.times) || !Number.isSafeInteger(unit.over)) return unit;
  const divisor = greatestCommonDivisor(unit.times, unit.over);
  return { ...unit, times: unit.times / divisor, over: unit.over / divisor };
}
function product(a, b) {
  const powers2 = a.powers.map((power2, base) => power2 + b.powers[base]);
  return reduced({ times: a.times * b.times, over: a.over * b.over, powers: powers2, symbols: [...a.symbols, ...b.symbols] });
}
function raised(unit, power2) {
  const [times, over] = power2 < 0 ? [unit.over, unit.times] : [unit.times, unit.over];
  return {
    times: times ** Math.abs(power2),
    over: over ** Math.abs(power2),
    powers: unit.powers.map((of) => of * power2 || 0),
    symbols: unit.symbols.map((symbol) => ({ name: symbol.name, power: symbol.power * power2 })),
  };
}
var SYMBOL = /°?\p{L}+|[°%]/uy;
var POWER = /\^[+-]?[1-9](?!\d)|-?[1-9](?!\d)/y;
var QUOTIENT = / ?\/ ?| per /y;
var PRODUCT = / ?· ?| (?=[\p{L}°%(])/uy;
var UNITY = /1(?![\d.])/y;
function parseUnit(text2, symbols) {
  let at2 = 0;
  const take = (pattern) => {
    pattern.lastIndex = at2;
    const found2 = pattern.exec(text2)?.[0];
    if (found2 !== void 0) at2 += found2.length;
    return found2;
  };
  const malformed = () => ({ ok: false, kind: 'malformed', at: text2.slice(at2) });
  const factor = () => {
    let read;
    if (text2[at2] === '(') {
      at2 += 1;
      read = expression();
      if (!read.ok) return read;
      if (text2[at2] !== ')') return malformed();
      at2 += 1;
    } else if (take(UNITY) !== void 0) {
      return { ok: true, unit: ONE };
    } else {
      const symbol = take(SYMBOL);
      if (symbol === void 0) return malformed();
      const unit = symbols.get(symbol);
      if (unit === void 0) return { ok: false, kind: 'unknown-symbol', symbol };
      read = { ok: true, unit };
    }
    const power2 = take(POWER);
    return power2 === void 0 ? read : { ok: true, unit: raised(read.unit, Number(power2.replace('^', ''))) };
  };
  const expression = () => {
    let slash;
    let unit = ONE;
    let sign = 1;
    if (take(QUOTIENT) !== void 0) {
      sign = -1;
      slash = at2;
    }
    for (;;) {
      const next = factor();
      if (!next.ok) return next;
      unit = product(unit, raised(next.unit, sign));
      if (take(QUOTIENT) !== void 0) {
        sign = -1;
        slash ??= at2;
      } else if (take(PRODUCT) !== void 0) {
        if (slash !== void 0) {
          return { ok: false, kind: 'unclear-quotient', clearer: `${text2.slice(0, slash)}(${text2.slice(slash)})` };
        }
      } else return { ok: true, unit };
    }
  };
  const whole = expression();
  return whole.ok && at2 < text2.length ? malformed() : whole;
}

// packages/sim-core/src/quantities/unit-symbols.ts
var ROWS = [
  { names: ['g', 'gram', 'grams'], prefixes: 'mk', over: 1e3, of: [1, 0, 0, 0, 0, 0] },
  { names: ['m', 'metre', 'metres', 'meter', 'meters'], prefixes: 'n\xB5mck', of: [0, 1, 0, 0, 0, 0] },
  { names: ['s', 'sec', 'second', 'seconds'], prefixes: 'n\xB5m', of: [0, 0, 1, 0, 0, 0] },
  { names: ['A', 'amp', 'amps', 'ampere', 'amperes'], prefixes: '\xB5mk', of: [0, 0, 0, 1, 0, 0] },
  { names: ['K', 'kelvin'], prefixes: 'm', of: [0, 0, 0, 0, 1, 0] },
  { names: ['rad', 'radian', 'radians'], prefixes: 'm', of: [0, 0, 0, 0, 0, 1] },
  { names: ['%', 'percent'], over: 100, of: '1' },
  // As differences; an absolute temperature adds its zero in `unit-scale.ts`.
  { names: ['\xB0C', 'degC', 'celsius'], of: 'K' },
  { names: ['\xB0F', 'degF', 'fahrenheit'], times: 5, over: 9, of: 'K' },
  { names: ['min', 'minute', 'minutes'], times: SECONDS_PER_MINUTE, of: 's' },
  { names: ['h', 'hr', 'hour', 'hours'], times: SECONDS_PER_HOUR, of: 's' },
  { names: ['Hz', 'hertz'], prefixes: 'kM', of: '1/s' },
  // A pack's discharge rate as a multiple of its capacity an hour; `unit-scale.ts` keeps it from being taken for °C or coulomb.
  { names: ['C'], of: '1/h' },
  { names: ['\xB0', 'deg', 'degree', 'degrees'], times: Math.PI, over: 180, of: 'rad' },
  { names: ['rev', 'turn', 'turns', 'revolution', 'revolutions'], times: 2 * Math.PI, of: 'rad' },
  { names: ['rpm', 'RPM'], prefixes: 'k', times: RPM, of: 'rad/s' },
  { names: ['in', 'inch', 'inches'], times: 254, over: 100, of: 'cm' },
  { names: ['ft', 'foot', 'feet'], times: 12, of: 'in' },
  { names: ['mile', 'miles'], times: 5280, of: 'ft' },
  { names: ['L', 'l', 'litre', 'litres', 'liter', 'liters'], prefixes: 'm', over: 1e3, of: 'm3' },
  { names: ['kn', 'kt', 'knot', 'knots'], times: 1852, of: 'm/h' },
  { names: ['mph'], of: 'mile/h' },
  { names: ['lb', 'lbs', 'pound', 'pounds'], times: 45359237, over: 1e5, of: 'g' },
  { names: ['oz', 'ounce', 'ounces'], over: 16, of: 'lb' },
  { names: ['N', 'newton', 'newtons'], prefixes: 'mk', of: 'kg\xB7m/s2' },
  { names: ['gf'], prefixes: 'k', times: STANDARD_GRAVITY, of: 'g\xB7m/s2' },
  { names: ['ozf'], times: STANDARD_GRAVITY, of: 'oz\xB7m/s2' },
  { names: ['lbf'], times: STANDARD_GRAVITY, of: 'lb\xB7m/s2' },
  { names: ['Pa', 'pascal'], prefixes: 'mhkM', of: 'N/m2' },
  { names: ['bar'], prefixes: 'm', times: 1e5, of: 'Pa' },
  { names: ['J', 'joule', 'joules'], prefixes: 'mkM', of: 'N\xB7m' },
  { names: ['W', 'watt', 'watts'], prefixes: '\xB5mk', of: 'J/s' },
  { names: ['V', 'volt', 'volts'], prefixes: '\xB5mk', of: 'W/A' },
  { names: ['ohm', '\u03A9', 'Ohm', 'ohms'], prefixes: '\xB5mkM', of: 'V/A' },
  { names: ['H', 'henry', 'henries'], prefixes: 'n\xB5m', of: 'V\xB7s/A' },
  { names: ['F', 'farad'], prefixes: 'pn\xB5m', of: 'A\xB7s/V' },
  // Products that the trade writes as one word.
  { names: ['As'], prefixes: 'm', of: 'A\xB7s' },
  { names: ['Ah'], prefixes: 'm', of: 'A\xB7h' },
  { names: ['Wh'], prefixes: 'mk', of: 'W\xB7h' },
  { names: ['Ws'], prefixes: 'k', of: 'W\xB7s' },
  { names: ['Nm'], prefixes: 'mk', of: 'N\xB7m' },
  { names: ['Ncm'], of: 'N\xB7cm' },
  { names: ['Nmm'], of: 'N\xB7mm' },
];
var PREFIXES = /* @__PURE__ */ new Map([
  ['p', { letters: ['p'], word: 'pico', times: 1, over: 1e12 }],
  ['n', { letters: ['n'], word: 'nano', times: 1, over: 1e9 }],
  ['\xB5', { letters: ['\u03BC', 'u'], word: 'micro', times: 1, over: 1e6 }],
  ['m', { letters: ['m'], word: 'milli', times: 1, over: 1e3 }],
  ['c', { letters: ['c'], word: 'centi', times: 1, over: 100 }],
  ['h', { letters: ['h'], word: 'hecto', times: 100, over: 1 }],
  ['k', { letters: ['k'], word: 'kilo', times: 1e3, over: 1 }],
  ['M', { letters: ['M'], word: 'mega', times: 1e6, over: 1 }],
]);
var LETTERS_OF_SYMBOL_AND_WORD = 3;
function* spellings(row) {
  for (const name of row.names) {
    yield { spelling: name };
    for (const key of row.prefixes ?? '') {
      const prefix = PREFIXES.get(key);
      if (name.length <= LETTERS_OF_SYMBOL_AND_WORD) for (const letter of prefix.letters) yield { spelling: letter + name, prefix };
      if (name.length >= LETTERS_OF_SYMBOL_AND_WORD) yield { spelling: prefix.word + name, prefix };
    }
  }
}
function build(rows) {
  const symbols = /* @__PURE__ */ new Map();
  for (const row of rows) {
    let base;
    if (typeof row.of === 'string') {
      const read = parseUnit(row.of, symbols);
      if (!read.ok) throw new Error(`unit table: ${row.names[0]} is said to be ${row.of}, which cannot be read`);
      base = read.unit;
    } else base = { ...ONE, powers: row.of };
    const own = product(base, { ...ONE, times: row.times ?? 1, over: row.over ?? 1 });
    const named2 = [{ name: row.names[0], power: 1 }];
    for (const { spelling, prefix } of spellings(row)) {
      if (symbols.has(spelling)) throw new Error(`unit table: ${spelling} has two meanings`);
      const unit = prefix ? product(own, { ...ONE, times: prefix.times, over: prefix.over }) : own;
      symbols.set(spelling, { ...unit, symbols: named2 });
    }
  }
  return symbols;
}
var SYMBOLS = build(ROWS);

// packages/sim-core/src/quantities/units.ts
var UNITS = {
  temperature: ['K', '\xB0C', '\xB0F'],
  temperatureDifference: ['K'],
  temperatureCoefficient: ['1/K', '%/K'],
  conductance: ['W/K', 'K/W'],
  heatCapacity: ['J/K'],
  specificHeat: ['J/(kg\xB7K)'],
  thermalConductivity: ['W/(m\xB7K)'],
  heatTransferCoefficient: ['W/(m\xB2\xB7K)'],
  current: ['A', 'mA'],
  voltage: ['V', 'mV'],
  resistance: ['ohm', 'mohm'],
  inductance: ['H', 'mH', '\xB5H'],
  capacitance: ['F', '\xB5F'],
  charge: ['A\xB7s', 'mA\xB7h', 'A\xB7h'],
  power: ['W', 'kW', 'mW'],
  energy: ['J', 'kJ', 'W\xB7h'],
  angle: ['rad', '\xB0'],
  angularSpeed: ['rad/s', 'rpm'],
  speedConstant: ['rad/(s\xB7V)', 'rpm/V'],
  torque: ['N\xB7m', 'mN\xB7m', 'N\xB7cm', 'kgf\xB7cm', 'ozf\xB7in'],
  torqueConstant: ['N\xB7m/A', 'mN\xB7m/A', 'mV/rpm'],
  torquePerSpeed: ['N\xB7m\xB7s/rad', 'mN\xB7m/krpm'],
  torquePerSpeedSquared: ['N\xB7m\xB7s\xB2/rad\xB2', 'mN\xB7m/krpm\xB2'],
  inertia: ['kg\xB7m\xB2', 'g\xB7cm\xB2'],
  frequency: ['Hz', 'kHz'],
  dischargeRate: ['1/s', 'C'],
  time: ['s', 'min', 'h', 'ms', '\xB5s', 'ns'],
  length: ['m', 'mm', 'cm', 'km', '\xB5m', 'in', 'ft'],
  area: ['m\xB2', 'cm\xB2', 'mm\xB2'],
  volume: ['m\xB3', 'L', 'cm\xB3'],
  wireGauge: ['m\xB2', 'mm\xB2', 'AWG'],
  mass: ['kg', 'g', 'oz', 'lb'],
  speed: ['m/s', 'km/h', 'kn', 'mph'],
  acceleration: ['m/s\xB2'],
  force: ['N', 'gf', 'kgf', 'ozf', 'lbf'],
  pressure: ['Pa', 'hPa', 'kPa', 'bar'],
  density: ['kg/m\xB3', 'g/cm\xB3'],
  viscosity: ['Pa\xB7s', 'mPa\xB7s'],
  kinematicViscosity: ['m\xB2/s', 'mm\xB2/s'],
  massFlow: ['kg/s', 'g/s'],
  volumeFlow: ['m\xB3/s', 'L/min'],
  fraction: ['1', '%'],
  ratio: ['1'],
};

// packages/sim-core/src/quantities/nearest-unit.ts
function editDistance(a, b) {
  let beforeLast = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const same2 = a[row - 1] === b[column - 1];
      let least = Math.min(last[column] + 1, current[column - 1] + 1, last[column - 1] + (same2 ? 0 : 1));
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        least = Math.min(least, beforeLast[column - 2] + 1);
      }
      current.push(least);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length];
}
var TOKEN = /°?\p{L}+|[°%]/gu;
var CHANGED_CAPITAL = 0.25;
var folded = (text2) => plainText(text2).replace(/[ ·^()]/g, '');
function slip(written, valid) {
  if (written === valid) return 0;
  const distance = editDistance(written.toLowerCase(), valid.toLowerCase());
  if (distance === 0) return CHANGED_CAPITAL;
  const shortest = Math.min(written.length, valid.length);
  const allowed = shortest < 2 ? 0 : shortest < 4 ? 1 : 2;
  return distance <= allowed ? distance : Infinity;
}
function nearestUnit(text2, dimension, accepts) {
  const guesses = UNITS[dimension].map((unit) => ({ spelling: unit, distance: slip(folded(text2), folded(unit)) }));
  const unknown = (text2.match(TOKEN) ?? []).filter((token) => token !== 'per' && !SYMBOLS.has(token));
  if (unknown.length === 1) {
    for (const symbol of SYMBOLS.keys()) {
      const distance = slip(unknown[0], symbol);
      if (distance === Infinity) continue;
      const spelling = text2.replace(unknown[0], symbol);
      if (accepts(spelling)) guesses.push({ spelling, distance });
    }
  }
  const nearest = guesses.reduce((best, guess) => (guess.distance < best.distance ? guess : best));
  return nearest.distance === Infinity ? void 0 : nearest.spelling;
}

// packages/sim-core/src/quantities/read-failure.ts
function objection(kind, found2, more = {}) {
  return { ok: false, kind, found: found2, ...more };
}
var LONGEST_QUOTE = 60;
function quoted(text2) {
  return text2.length > LONGEST_QUOTE ? `\u201C${text2.slice(0, LONGEST_QUOTE)}\u2026\u201D` : `\u201C${text2}\u201D`;
}

// packages/sim-core/src/quantities/read-unit.ts
var ZEROS = /* @__PURE__ */ new Map([
  ['\xB0C', ZERO_CELSIUS],
  ['\xB0F', ZERO_CELSIUS - (32 * 5) / 9],
]);
var AWG = /^awg$/i;
var TURN2 = SYMBOLS.get('turn');
var RADIAN = 5;
var ALL = Object.keys(UNITS);
var SI = Object.fromEntries(
  ALL.map((dimension) => {
    const read = parseUnit(plainText(UNITS[dimension][0]), SYMBOLS);
    if (!read.ok) throw new Error(`unit table: the SI unit of ${dimension} cannot be read`);
    return [dimension, read.unit.powers];
  }),
);
var same = (a, b) => a.every((power2, base) => power2 === b[base]);
var withRadian = (powers2, radian) => [...powers2.slice(0, RADIAN), radian];
var holds = (unit, names) => unit.symbols.some(({ name }) => names.includes(name));
function suits(unit, dimension) {
  const { radians = [], refuses = [] } = DIMENSION_FACTS[dimension];
  const powers2 = SI[dimension];
  return [powers2[RADIAN], ...radians].some((radian) => same(unit.powers, withRadian(powers2, radian))) && !holds(unit, refuses);
}
var linear = (unit, zero = 0) => ({ ok: true, scale: { kind: 'linear', times: unit.times, over: unit.over, zero } });
function turning(unit, dimension, text2) {
  const powers2 = SI[dimension];
  if (powers2[RADIAN] !== 1 || !same(unit.powers, withRadian(powers2, 0)) || holds(unit, ['C'])) return void 0;
  const countsMinutes = unit.symbols.some(({ name, power: power2 }) => name === 'min' && power2 === -1) && !holds(unit, ['s', 'h', 'Hz']);
  if (countsMinutes) return linear(product(unit, TURN2));
  return objection('ambiguous', quoted(text2), { hint: 'it may count radians or turns: write rad/s or rpm', nearest: UNITS[dimension][1] });
}
function mistaken(unit, text2) {
  const found2 = ALL.find((dimension) => suits(unit, dimension));
  if (found2) return `${quoted(text2)}, ${named(found2)}`;
  return same(raised(unit, -1).powers, SI.conductance) ? `${quoted(text2)}, a thermal resistance` : quoted(text2);
}
function readUnit(written, dimension) {
  const text2 = plainText(written);
  const hint = DIMENSION_FACTS[dimension].hints?.find(([unit2]) => unit2.test(text2))?.[1];
  if (AWG.test(text2)) {
    if (dimension === 'wireGauge') return { ok: true, scale: { kind: 'wire-gauge' } };
    return objection('wrong-dimension', `${quoted(text2)}, ${named('wireGauge')}`);
  }
  const accepts = (spelling) => {
    const read2 = parseUnit(plainText(spelling), SYMBOLS);
    return read2.ok && suits(read2.unit, dimension);
  };
  const read = parseUnit(text2, SYMBOLS);
  if (!read.ok) {
    if (read.kind === 'unclear-quotient') {
      const clear = accepts(read.clearer);
      return objection('ambiguous', quoted(text2), {
        hint: clear ? `write ${read.clearer}` : 'put what stands under the stroke in parentheses',
        ...(clear ? { nearest: read.clearer } : {}),
      });
    }
    const nearest = nearestUnit(text2, dimension, accepts);
    return objection('wrong-unit', quoted(text2), { ...(hint ? { hint } : {}), ...(nearest ? { nearest } : {}) });
  }
  const { unit } = read;
  if (text2 === 'C' && dimension !== 'dischargeRate') {
    return objection('ambiguous', quoted(text2), {
      hint: hint ?? 'C may be \xB0C, coulomb or multiples of the capacity: write \xB0C or A\xB7s',
    });
  }
  if (suits(unit, dimension)) {
    return linear(unit, dimension === 'temperature' ? (ZEROS.get(alone(unit) ?? '') ?? 0) : 0);
  }
  if (dimension === 'conductance' && suits(raised(unit, -1), 'conductance')) {
    return { ok: true, scale: { kind: 'reciprocal', times: unit.times, over: unit.over } };
  }
  const more = hint ? { hint } : {};
  return turning(unit, dimension, text2) ?? objection('wrong-dimension', mistaken(unit, text2), more);
}
function alone(unit) {
  const [first, ...others] = unit.symbols;
  return first?.power === 1 && others.length === 0 ? first.name : void 0;
}

// packages/sim-core/src/quantities/wire-gauge.ts
var SMALLEST_DIAMETER = 127e-6;
var SMALLEST_GAUGE = 36;
var THICKEST_GAUGE = -3;
var THINNEST_GAUGE = 56;
var STEP = 92 ** (1 / 39);
function areaOfGauge(gauge) {
  const diameter = SMALLEST_DIAMETER * STEP ** (SMALLEST_GAUGE - gauge);
  return (Math.PI * diameter ** 2) / 4;
}
function gaugeOfArea(area) {
  if (!(area > 0)) throw new RangeError(`a wire of ${area} m\xB2 has no gauge number`);
  const diameter = Math.sqrt((4 * area) / Math.PI);
  return SMALLEST_GAUGE - Math.log(diameter / SMALLEST_DIAMETER) / Math.log(STEP);
}

// packages/sim-core/src/quantities/unit-scale.ts
function toSi(scale, value2) {
  switch (scale.kind) {
    case 'linear':
      return (value2 * scale.times) / scale.over + scale.zero;
    case 'reciprocal':
      return reciprocal(scale.times, scale.over, value2);
    case 'wire-gauge':
      return areaOfGauge(value2);
  }
}
function fromSi(scale, value2) {
  switch (scale.kind) {
    case 'linear':
      return ((value2 - scale.zero) * scale.over) / scale.times;
    case 'reciprocal':
      return reciprocal(scale.times, scale.over, value2);
    case 'wire-gauge':
      return gaugeOfArea(value2);
  }
}
function reciprocal(times, over, value2) {
  if (value2 === 0)
    throw new RangeError('zero has no reciprocal: a conductance of 0 W/K is an infinite resistance, and the other way about');
  return over / (value2 * times);
}

// packages/sim-core/src/quantities/convert.ts
var SCALES = new Map(
  Object.keys(UNITS).flatMap((dimension) =>
    UNITS[dimension].map((unit) => {
      const read = readUnit(unit, dimension);
      if (!read.ok) throw new Error(`unit table: ${unit} is listed for ${dimension} and cannot be read`);
      return [unit, read.scale];
    }),
  ),
);
function scaleOf(unit) {
  const scale = SCALES.get(unit);
  if (scale === void 0) throw new RangeError(`no listed unit is spelt ${unit}`);
  return scale;
}
function toUnit(value2, unit) {
  return fromSi(scaleOf(unit), value2);
}
function fromUnit(value2, unit) {
  return toSi(scaleOf(unit), value2);
}
function listedUnit(scale, dimension) {
  const units = UNITS[dimension];
  return units.find((unit) => sameScale(scaleOf(unit), scale)) ?? units[0];
}
function sameScale(a, b) {
  if (a.kind === 'wire-gauge' || b.kind === 'wire-gauge') return a.kind === b.kind;
  if (a.kind !== b.kind) return false;
  const zeros = a.kind === 'linear' && b.kind === 'linear' ? a.zero === b.zero : true;
  return zeros && closeTo(a.times * b.over, b.times * a.over);
}
var LAST_BITS = 8 * Number.EPSILON;
var closeTo = (a, b) => Math.abs(a - b) <= LAST_BITS * Math.abs(b);

// packages/sim-core/src/quantities/format-quantity.ts
var NARROW_SPACE = '\u202F';
var MINUS = '\u2212';
var SIGNIFICANT = 3;
var SMALLEST_PLAIN = 1e-6;
var LARGEST_PLAIN = 1e12;
function formatNumber(value2, { significant = SIGNIFICANT, decimals } = {}) {
  if (!Number.isFinite(value2)) throw new RangeError(`${value2} is not a number to show`);
  const size = Math.abs(value2);
  const digits =
    decimals === void 0 ? inDigits(size, significant) : size < LARGEST_PLAIN ? size.toFixed(decimals) : withoutPlus(size.toExponential());
  return value2 < 0 && /[1-9]/.test(digits) ? `${MINUS}${digits}` : digits;
}
var withoutPlus = (text2) => text2.replace('e+', 'e');
function inDigits(size, significant) {
  if (size === 0) return '0';
  const rounded = Number(size.toPrecision(significant));
  if (rounded < SMALLEST_PLAIN || rounded >= LARGEST_PLAIN) return withoutPlus(size.toExponential(significant - 1));
  const magnitude = Math.floor(Math.log10(rounded));
  return size.toFixed(Math.max(0, significant - 1 - magnitude));
}
function unitSign(unit) {
  return unit === '1' ? '' : unit.replace('ohm', '\u03A9');
}
function formatQuantity(value2, dimension, format = {}) {
  const { unit = DIMENSION_FACTS[dimension].shown, space: space2 = NARROW_SPACE, ...digits } = format;
  const sign = unitSign(unit);
  const gap = sign === '' || sign === '\xB0' ? '' : space2;
  return `${formatNumber(toUnit(value2, unit), digits)}${gap}${sign}`;
}

// packages/sim-core/src/quantities/read-number.ts
var LONGEST_TEXT = 200;
function legible(text2) {
  if (text2.length > LONGEST_TEXT) return objection('not-a-number', `a text of ${text2.length} characters`);
  const plain = plainText(text2);
  return plain === '' ? objection('empty', 'nothing') : { ok: true, text: plain };
}
var NUMERAL = /^([+-]?) ?((?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)/;
var COMMA = /^[+-]?\d*,\d/;
var GROUPED_BY_COMMAS = /^([+-]? ?[1-9]\d{0,2}(?:,\d{3})+)(?!\d|,)/;
var GROUPED = /^[+-]? ?\d+(?:([ '_’])\d{3}(?!\d))+|^[+-]? ?\d+(?:\.\d+){2,}/;
function readNumeral(text2) {
  if (GROUPED_BY_COMMAS.test(text2)) {
    return objection('thousands-separator', quoted(text2), { hint: 'write the number without separators, and a point before decimals' });
  }
  if (COMMA.test(text2)) {
    return objection('decimal-comma', quoted(text2), { hint: `decimals follow a point: write ${text2.replace(',', '.')}` });
  }
  if (GROUPED.test(text2)) return objection('thousands-separator', quoted(text2), { hint: 'write the number without separators' });
  if (/^[+-]?0x/i.test(text2)) return objection('not-a-number', quoted(text2), { hint: 'write the number in decimal digits' });
  const numeral = NUMERAL.exec(text2);
  if (numeral === null) {
    const later = /\d/.test(text2) ? { hint: 'the number comes first, then its unit' } : {};
    return objection('not-a-number', quoted(text2), later);
  }
  const rest = text2.slice(numeral[0].length);
  if (/^ ?(\^|· ?10\b)/.test(rest)) {
    return objection('not-a-number', quoted(text2), { hint: 'write powers of ten as 2.4e-4' });
  }
  if (/^ ?\/ ?\d|^ ?\u2044/.test(rest)) return objection('not-a-number', quoted(text2), { hint: 'write fractions as decimals' });
  const value2 = Number(numeral[1] + numeral[2]);
  if (value2 === 0 && /^[^e]*[1-9]/i.test(numeral[2]))
    return objection('out-of-range', quoted(text2), { hint: 'the number is too small to be told from zero' });
  if (!Number.isFinite(value2)) return objection('out-of-range', quoted(text2), { hint: 'the number is too large to be calculated with' });
  return { ok: true, value: value2 || 0, rest: rest.trim() };
}
function readNumber(text2, { whole = false } = {}) {
  const expected = whole ? 'a whole number without a unit' : 'a number without a unit';
  const plain = legible(text2);
  const numeral = plain.ok ? readNumeral(plain.text) : plain;
  if (!numeral.ok) return { ...numeral, expected };
  if (numeral.rest !== '') return { ...objection('unit-not-due', quoted(text2.trim()), { hint: `write ${numeral.value}` }), expected };
  if (whole && !Number.isInteger(numeral.value)) return { ...objection('not-whole', quoted(text2.trim())), expected };
  return { ok: true, value: numeral.value };
}

// packages/sim-core/src/quantities/spread.ts
var STANDARD_DEVIATIONS_95 = 1.959963984540054;
var NO_SPREAD = { shape: 'none' };
function normal95(halfWidth) {
  if (!(halfWidth >= 0 && halfWidth < Infinity)) throw new RangeError(`a half-width is zero or positive, not ${halfWidth}`);
  return halfWidth === 0 ? NO_SPREAD : { shape: 'normal', sd: halfWidth / STANDARD_DEVIATIONS_95 };
}
function logNormal95(share2) {
  if (!(share2 >= 0 && share2 < Infinity)) throw new RangeError(`a half-width is zero or positive, not ${share2}`);
  return share2 === 0 ? NO_SPREAD : { shape: 'log-normal', sigma: Math.log1p(share2) / STANDARD_DEVIATIONS_95 };
}
function drawn(value2, spread, z10) {
  switch (spread.shape) {
    case 'none':
      return value2;
    case 'normal':
      return value2 + spread.sd * z10;
    case 'log-normal':
      return value2 * Math.exp(spread.sigma * z10);
  }
}

// packages/sim-core/src/quantities/read-tolerance.ts
var PERCENT = /^(%|percent)$/;
var bad = (text2, hint) => objection('bad-tolerance', quoted(`\xB1 ${text2}`), { hint });
function readTolerance(text2, nominal) {
  const { dimension, scale } = nominal;
  const numeral = readNumeral(text2);
  if (!numeral.ok) return bad(text2, numeral.hint ?? 'a number follows \xB1');
  if (numeral.value < 0) return bad(text2, 'a tolerance is a half-width and never negative');
  if (scale.kind === 'wire-gauge') return bad(text2, 'a gauge number takes no tolerance; give the cross-section in mm\xB2');
  if (PERCENT.test(numeral.rest)) return percentage(text2, numeral.value, nominal);
  if (numeral.rest === '' && nominal.unit !== '')
    return bad(text2, dimension === 'temperature' ? 'give the tolerance in K' : 'give the tolerance its unit, or a %');
  const read =
    numeral.rest === '' ? { ok: true, scale } : readUnit(numeral.rest, dimension === 'temperature' ? 'temperatureDifference' : dimension);
  if (!read.ok) return bad(text2, read.hint ?? `a tolerance of ${named(dimension)} has the same kind of unit as the value, or is a %`);
  if (read.scale.kind !== scale.kind) return bad(text2, 'value and tolerance are both conductances or both resistances');
  if (DIMENSION_FACTS[dimension].spread === 'normal') return { ok: true, spread: normal95(toSi(read.scale, numeral.value)) };
  return share(text2, (numeral.value * steepness(read.scale)) / Math.abs(nominal.written * steepness(scale)), nominal);
}
var steepness = (scale) => (scale.kind === 'wire-gauge' ? Number.NaN : scale.times / scale.over);
function percentage(text2, percent2, nominal) {
  const { dimension, unit, written, scale } = nominal;
  if (dimension === 'temperature') return bad(text2, 'a % of a temperature has no meaning; give it in K');
  if (percent2 >= 100) return bad(text2, 'a tolerance is less than 100 %');
  if (dimension === 'fraction') {
    if (PERCENT.test(unit)) return { ok: true, spread: normal95(percent2 / 100) };
    return objection('ambiguous', quoted(`${written}${unit && ` ${unit}`} \xB1 ${text2}`), {
      hint: 'it may mean points or a share of the value; write both as plain numbers or both in %',
    });
  }
  if (DIMENSION_FACTS[dimension].spread === 'log-normal') return share(text2, percent2 / 100, nominal);
  return { ok: true, spread: normal95((Math.abs(toSi(scale, written)) * percent2) / 100) };
}
function share(text2, of, { written }) {
  if (written === 0) return bad(text2, 'zero takes no tolerance here');
  if (!(of < 1)) return bad(text2, 'a tolerance is smaller than the value itself');
  return { ok: true, spread: logNormal95(of) };
}

// packages/sim-core/src/quantities/read-quantity.ts
function readQuantity(text2, dimension) {
  const plain = legible(text2);
  const read = plain.ok ? readPlain(plain.text, dimension) : plain;
  return read.ok ? read : { ...read, expected: expectation(dimension) };
}
function expectation(dimension) {
  if (dimension === 'ratio') return 'a ratio, a number without a unit';
  if (dimension === 'fraction') return 'a fraction in %, or a number from 0 to 1';
  const { shown } = DIMENSION_FACTS[dimension];
  const units = [shown, ...UNITS[dimension].filter((unit) => unit !== shown)];
  const list = units.length === 1 ? units[0] : `${units.slice(0, -1).join(', ')} or ${units.at(-1)}`;
  return `${named(dimension)} in ${list}`;
}
var IN_PARENTHESES = /^\(([^()±]+)±([^()±]+)\) ?(.+)$/;
function readPlain(text2, dimension) {
  const [head2 = '', tail, ...more] = text2
    .replace(IN_PARENTHESES, '$1 $3 \xB1 $2 $3')
    .split('\xB1')
    .map((part) => part.trim());
  if (more.length > 0) return objection('bad-tolerance', quoted(text2), { hint: 'one \xB1 to a quantity' });
  const numeral = readNumeral(head2);
  if (!numeral.ok) return numeral;
  const unit = numeral.rest || borrowedUnit(numeral.value, tail, dimension);
  const read = readUnitOf(numeral.value, unit, dimension);
  if (!read.ok) return read;
  const { scale } = read;
  if (scale.kind === 'reciprocal' && numeral.value === 0) {
    return objection('out-of-range', quoted(text2), { hint: 'no resistance at all would be an infinite conductance' });
  }
  if (scale.kind === 'wire-gauge' && !(numeral.value >= THICKEST_GAUGE && numeral.value <= THINNEST_GAUGE)) {
    return objection('out-of-range', quoted(text2), { hint: `gauge numbers run from ${THICKEST_GAUGE} (4/0) to ${THINNEST_GAUGE}` });
  }
  const value2 = toSi(scale, numeral.value);
  if (!Number.isFinite(value2)) return objection('out-of-range', quoted(text2), { hint: 'the number is too large to be calculated with' });
  if (dimension === 'temperature' && value2 < 0) return objection('out-of-range', quoted(text2), { hint: 'this is below absolute zero' });
  const nominal = { ok: true, value: value2, shownUnit: listedUnit(scale, dimension) };
  if (tail === void 0) return nominal;
  const tolerance = readTolerance(tail, { written: numeral.value, unit, scale, dimension });
  return tolerance.ok ? { ...nominal, tolerance: tolerance.spread } : tolerance;
}
function borrowedUnit(value2, tail, dimension) {
  const numeral = readNumeral(tail ?? '');
  if (!numeral.ok) return '';
  return PERCENT.test(numeral.rest) && !(dimension === 'fraction' && isBeyondPlain(value2)) ? '' : numeral.rest;
}
var isBeyondPlain = (value2) => Math.abs(value2) > 1;
var ANOTHER_NUMBER = /[\p{L}%°)][,;]? ?[+-]?\d+(?:\.\d+)? ?[\p{L}%°]/u;
function readUnitOf(value2, unit, dimension) {
  if (unit === '') return readBare(value2, dimension);
  const found2 = `${value2} ${unit}`;
  if (/(^| )to /.test(unit)) {
    return objection('two-quantities', quoted(found2), { hint: 'one value is due here, not a range' });
  }
  const read = readUnit(unit, dimension);
  if (!read.ok && ANOTHER_NUMBER.test(unit)) {
    return objection('two-quantities', quoted(found2), { hint: 'write one number with one unit' });
  }
  return read;
}
function readBare(value2, dimension) {
  const plain = dimension === 'ratio' || (dimension === 'fraction' && !isBeyondPlain(value2));
  if (plain) return { ok: true, scale: { kind: 'linear', times: 1, over: 1, zero: 0 } };
  const { shown } = DIMENSION_FACTS[dimension];
  return objection('bare-number', `${quoted(`${value2}`)}, a number without a unit`, {
    hint: `write ${value2} ${shown}, if that is the unit`,
  });
}

// packages/sim-core/src/quantities/read-range.ts
var DASHED = /^[+-]?[\d.]+ ?(?:[-\u2013\u2014~]|\.\.+) ?[\d.]/;
function readRange(text2, dimension) {
  const plain = legible(text2);
  const read = plain.ok ? readPlain2(plain.text, dimension) : plain;
  return read.ok ? read : { ...read, expected: `${expectation(dimension)}, or a range such as \u201C2 to 3 \u2026\u201D` };
}
function readPlain2(text2, dimension) {
  if (text2.includes('\xB1')) return objection('bad-tolerance', quoted(text2), { hint: 'what is held takes no tolerance' });
  if (DASHED.test(text2)) return objection('two-quantities', quoted(text2), { hint: 'write a range with \u201Cto\u201D: 2 to 3 m/s' });
  const [first = '', second, ...more] = text2.split(/ to /);
  if (more.length > 0) return objection('two-quantities', quoted(text2), { hint: 'a range has two ends' });
  if (second === void 0) {
    const one = readQuantity(first, dimension);
    return one.ok ? { ok: true, from: one.value, to: one.value, shownUnit: one.shownUnit } : one;
  }
  const begin = readNumeral(first);
  const end = readNumeral(second);
  if (!begin.ok) return begin;
  if (!end.ok) return end;
  const borrowed = begin.rest === '' ? end.rest : '';
  if (dimension === 'fraction' && mixes(begin, end)) {
    return objection('ambiguous', quoted(text2), { hint: 'write both ends in %, or both as plain numbers' });
  }
  const from = readQuantity(`${first} ${borrowed}`, dimension);
  if (!from.ok) return from;
  const to = readQuantity(second, dimension);
  if (!to.ok) return to;
  return { ok: true, from: from.value, to: to.value, shownUnit: end.rest === '' ? from.shownUnit : to.shownUnit };
}
function mixes(begin, end) {
  const plainBeforePercent = begin.rest === '' && end.rest !== '' && begin.value !== 0 && Math.abs(begin.value) < 1;
  return plainBeforePercent || (begin.rest !== '' && end.rest === '' && end.value !== 0);
}

// packages/sim-core/src/provenance/datum.ts
var isDatum = (x) => typeof x === 'object' && x !== null && 'origin' in x && 'unknown' in x;
function givenDatum(dimension, value2, spread, place, source) {
  const key = `${place.file}:${place.line}:${place.column}`;
  return { dimension, value: value2, unknown: { key, spread }, origin: { kind: 'given', place }, ...(source === void 0 ? {} : { source }) };
}

// packages/sim-core/src/media/standard-atmosphere.ts
var SEA_LEVEL_TEMPERATURE = 288.15;
var SEA_LEVEL_PRESSURE = 101325;
var LAPSE_RATE = -65e-4;
var TROPOPAUSE = 11e3;
var LOWEST = -5e3;
var HIGHEST = 2e4;
var EARTH_RADIUS = 6356766;
var TROPOPAUSE_TEMPERATURE = SEA_LEVEL_TEMPERATURE + LAPSE_RATE * TROPOPAUSE;
var PRESSURE_EXPONENT = -STANDARD_GRAVITY / (DRY_AIR_GAS_CONSTANT * LAPSE_RATE);
var TROPOPAUSE_PRESSURE = SEA_LEVEL_PRESSURE * (TROPOPAUSE_TEMPERATURE / SEA_LEVEL_TEMPERATURE) ** PRESSURE_EXPONENT;
var geopotentialAltitude = (altitude) => (EARTH_RADIUS * altitude) / (EARTH_RADIUS + altitude);
var standardTemperature = (geopotential) => {
  if (!(geopotential >= LOWEST && geopotential <= HIGHEST))
    throw new RangeError(`The standard atmosphere is laid out from ${LOWEST} to ${HIGHEST} m; asked for ${geopotential} m.`);
  return geopotential < TROPOPAUSE ? SEA_LEVEL_TEMPERATURE + LAPSE_RATE * geopotential : TROPOPAUSE_TEMPERATURE;
};
var standardPressure = (geopotential) => {
  const temperature3 = standardTemperature(geopotential);
  return geopotential < TROPOPAUSE
    ? SEA_LEVEL_PRESSURE * (temperature3 / SEA_LEVEL_TEMPERATURE) ** PRESSURE_EXPONENT
    : TROPOPAUSE_PRESSURE * Math.exp((-STANDARD_GRAVITY * (geopotential - TROPOPAUSE)) / (DRY_AIR_GAS_CONSTANT * temperature3));
};
var pressureAtAltitude = (altitude) => standardPressure(geopotentialAltitude(altitude));

// packages/sim-core/src/parts/wiring.ts
var COPPER_RESISTIVITY = 17241e-12;
var wiringResistance = (length, area, connectors, contact) => (COPPER_RESISTIVITY * 2 * length) / area + connectors * contact;

// packages/sim-core/src/provenance/spreads.ts
var SURE = NO_SPREAD;
var percent = (share2) => logNormal95(share2 / 100);
var points = (amount) => normal95(amount);
var PRACTICE = 'common practice, no published source';

// packages/sim-core/src/provenance/rules.ts
var rule = (words2, dimension, law, common, source, own = SURE) => ({
  words: words2,
  dimension,
  law,
  common,
  own,
  source,
});
var fixed = (words2, dimension, common, source, own = SURE) => rule(words2, dimension, () => Number.NaN, common, source, own);
var definition = 'definition';
var noLoadTorque = (x) => x[0] * x[2];
var speedAtNoLoad = (x) => noLoadSpeed({ torqueConstant: x[0], resistance: x[1] }, x[3], x[2]);
var RULES = {
  // surroundings
  'standard-day': fixed('air temperature of a standard day', 'temperature', points(10), 'ISO 2533:1975'),
  'sea-level': fixed('altitude', 'length', SURE, 'assumed at sea level'),
  'pressure-at-altitude': rule('air pressure at altitude', 'pressure', (x) => pressureAtAltitude(x[0]), percent(1), 'ISO 2533:1975'),
  'as-the-air': rule('as the air outside', 'temperature', (x) => x[0], SURE, PRACTICE),
  'mild-water': fixed('water temperature', 'temperature', points(6), PRACTICE),
  'air-density': rule('density of air', 'density', (x) => airDensity(x[0], x[1]), SURE, 'ideal gas; ISO 2533:1975'),
  'air-viscosity': rule(
    'kinematic viscosity of air',
    'kinematicViscosity',
    (x) => airKinematicViscosity(x[0], x[1]),
    SURE,
    'Sutherland; ISO 2533:1975',
  ),
  'fresh-water-density': rule('density of fresh water', 'density', (x) => waterDensity('fresh', x[0]), SURE, 'ITTC 7.5-02-01-03'),
  'sea-water-density': rule('density of sea water', 'density', (x) => waterDensity('sea', x[0]), SURE, 'ITTC 7.5-02-01-03'),
  'fresh-water-viscosity': rule(
    'viscosity of fresh water',
    'kinematicViscosity',
    (x) => waterKinematicViscosity('fresh', x[0]),
    SURE,
    'ITTC 7.5-02-01-03',
  ),
  'sea-water-viscosity': rule(
    'viscosity of sea water',
    'kinematicViscosity',
    (x) => waterKinematicViscosity('sea', x[0]),
    SURE,
    'ITTC 7.5-02-01-03',
  ),
  // battery
  'full-charge': fixed('charge at the start', 'fraction', SURE, 'assumed full'),
  'cell-resistance-lithium-polymer': rule(
    'cell resistance from capacity, 14 m\u03A9\xB7Ah',
    'resistance',
    (x) => (0.014 * SECONDS_PER_HOUR) / x[0],
    percent(40),
    PRACTICE,
    percent(15),
  ),
  'cell-resistance-lithium-ion': rule(
    'cell resistance from capacity, 70 m\u03A9\xB7Ah',
    'resistance',
    (x) => (0.07 * SECONDS_PER_HOUR) / x[0],
    percent(50),
    PRACTICE,
    percent(15),
  ),
  'cell-resistance-lithium-iron-phosphate': rule(
    'cell resistance from capacity, 40 m\u03A9\xB7Ah',
    'resistance',
    (x) => (0.04 * SECONDS_PER_HOUR) / x[0],
    percent(50),
    PRACTICE,
    percent(15),
  ),
  'cell-resistance-nickel-metal-hydride': rule(
    'cell resistance from capacity, 14 m\u03A9\xB7Ah',
    'resistance',
    (x) => (0.014 * SECONDS_PER_HOUR) / x[0],
    percent(50),
    PRACTICE,
    percent(15),
  ),
  'slow-resistance': rule(
    'slow part of the cell resistance, 0.75 of the ohmic part',
    'resistance',
    (x) => 0.75 * x[0],
    percent(50),
    PRACTICE,
  ),
  'slow-time': fixed('time constant of the slow part', 'time', percent(60), PRACTICE),
  'resistance-activation': fixed(
    'rise of cell resistance in the cold (activation temperature)',
    'temperatureDifference',
    percent(40),
    PRACTICE,
  ),
  'open-circuit-error': fixed(
    'error of the open-circuit curve',
    'voltage',
    points(0.03),
    'spread between published curves of one chemistry',
  ),
  'pack-mass': rule(
    'pack mass from its energy, 140 W\xB7h/kg',
    'mass',
    (x) => (x[0] * x[1]) / (140 * SECONDS_PER_HOUR),
    percent(25),
    PRACTICE,
  ),
  'nominal-voltage': fixed('nominal voltage of the pack', 'voltage', SURE, definition),
  'chemistry-cutoff': fixed('lowest loaded cell voltage', 'voltage', SURE, PRACTICE),
  'rated-current': rule('battery current from the discharge rating', 'current', (x) => x[0] * x[1], SURE, definition),
  'cell-heat-capacity': rule('heat capacity of the pack, 1000 J/(kg\xB7K)', 'heatCapacity', (x) => 1e3 * x[0], percent(15), PRACTICE),
  'cells-to-air': rule(
    'pack to air: 8 W/(m\xB2\xB7K) on the surface of a block of 2 g/cm\xB3',
    'conductance',
    (x) => 8 * 6.6 * (x[0] / 2e3) ** (2 / 3),
    percent(60),
    PRACTICE,
  ),
  // wiring and controller
  'wiring-from-gauge': rule(
    'wiring resistance from gauge, length both ways and connectors',
    'resistance',
    (x) => wiringResistance(x[1], x[0], x[2], x[3]),
    percent(15),
    'ASTM B258, IEC 60028',
  ),
  'connector-contact': fixed('contact resistance of a pair of connectors', 'resistance', percent(60), PRACTICE),
  'connector-count': fixed('pairs of connectors', 'ratio', SURE, PRACTICE),
  'wire-area': fixed('wire cross-section', 'wireGauge', percent(30), PRACTICE),
  'wire-length': fixed('wire length one way', 'length', percent(50), PRACTICE),
  'path-resistance': fixed('controller path resistance', 'resistance', percent(60), PRACTICE),
  'device-temperature-coefficient': fixed(
    'rise of the controller\u2019s resistance with temperature',
    'temperatureCoefficient',
    percent(40),
    PRACTICE,
  ),
  'switching-time': fixed('rise and fall time of the controller', 'time', percent(80), PRACTICE),
  'pwm-frequency': fixed('switching frequency', 'frequency', percent(60), PRACTICE),
  'voltage-loss': fixed('controller loss per volt squared', 'ratio', percent(80), PRACTICE),
  'idle-current': fixed('controller idle current', 'current', percent(60), PRACTICE),
  'diode-drop': fixed('drop of the freewheeling diode', 'voltage', percent(30), PRACTICE),
  'no-diode': fixed('no diode drop: synchronous rectification', 'voltage', SURE, PRACTICE),
  'controller-mass': fixed('controller mass', 'mass', percent(60), PRACTICE),
  'controller-heat-capacity': rule(
    'heat capacity of the controller, 800 J/(kg\xB7K)',
    'heatCapacity',
    (x) => 800 * x[0],
    percent(30),
    PRACTICE,
  ),
  'controller-to-air': rule(
    'controller to air: 0.9 W/K \xD7 (mass in kg)^\u2154, in still air',
    'conductance',
    (x) => 0.9 * x[0] ** (2 / 3),
    percent(60),
    PRACTICE,
  ),
  // motor
  'kt-from-kv': rule('torque constant from Kv', 'torqueConstant', (x) => 1 / x[0], SURE, 'kt = 1/Kv'),
  'kt-from-back-emf': rule(
    'torque constant from Kv by peak back-EMF',
    'torqueConstant',
    (x) => Math.PI / 3 / x[0],
    SURE,
    'six-step drive runs \u03C0/3 faster than its peak EMF says',
  ),
  'line-from-phase': rule('resistance between lines from one phase of a star', 'resistance', (x) => 2 * x[0], SURE, definition),
  'copper-coefficient': fixed('temperature coefficient of copper', 'temperatureCoefficient', SURE, 'IEC 60028'),
  'flux-coefficient': fixed('temperature coefficient of magnet flux', 'temperatureCoefficient', percent(15), 'magnet makers\u2019 tables'),
  'constant-loss-share': fixed('part of the no-load torque that does not depend on speed', 'fraction', points(0.25), PRACTICE),
  'friction-share': fixed('part of the constant loss torque that is bearing friction', 'fraction', points(0.2), PRACTICE),
  'constant-loss-torque': rule(
    'constant loss torque from one no-load point',
    'torque',
    (x) => noLoadTorque(x) * x[4],
    SURE,
    'kt\xB7i0 split by an assumed share',
  ),
  'speed-loss-torque': rule(
    'loss torque per speed from one no-load point',
    'torquePerSpeed',
    (x) => (noLoadTorque(x) * (1 - x[4])) / speedAtNoLoad(x),
    SURE,
    'kt\xB7i0 split by an assumed share',
  ),
  'constant-loss-from-two': rule(
    'constant loss torque from two no-load points',
    'torque',
    (x) => twoPoints(x).constant,
    SURE,
    'straight line through kt\xB7i0 over speed',
  ),
  'speed-loss-from-two': rule(
    'loss torque per speed from two no-load points',
    'torquePerSpeed',
    (x) => twoPoints(x).slope,
    SURE,
    'straight line through kt\xB7i0 over speed',
  ),
  'hysteresis-torque': rule('hysteresis torque', 'torque', (x) => x[0] * (1 - x[1]), SURE, 'constant loss torque less friction'),
  'friction-torque': rule('bearing friction torque', 'torque', (x) => x[0] * x[1], SURE, 'share of the constant loss torque'),
  'no-windage': fixed('windage torque per speed squared, counted in the loss per speed', 'torquePerSpeedSquared', SURE, PRACTICE),
  'magnet-loss-share': fixed('part of the iron loss that arises in the magnets', 'fraction', points(0.04), PRACTICE),
  'inrunner-inertia': rule(
    'rotor inertia, 0.3 of the mass on 0.19 of the diameter',
    'inertia',
    (x) => 0.5 * 0.3 * x[0] * (0.27 * x[1]) ** 2,
    percent(60),
    PRACTICE,
    percent(20),
  ),
  'outrunner-inertia': rule(
    'bell inertia, 0.45 of the mass at 0.46 of the diameter',
    'inertia',
    (x) => 0.45 * x[0] * (0.46 * x[1]) ** 2,
    percent(40),
    PRACTICE,
    percent(20),
  ),
  // heat of the motor
  'inrunner-stack': rule(
    'stack length: can less 15 mm of end bells and end turns',
    'length',
    (x) => Math.max(0.35 * x[0], x[0] - 0.015),
    percent(12),
    PRACTICE,
    percent(6),
  ),
  'outrunner-stack': rule('stack length, 0.47 of the can', 'length', (x) => 0.47 * x[0], percent(20), PRACTICE, percent(8)),
  'inrunner-stator-diameter': rule('slot diameter, 0.89 of the can', 'length', (x) => 0.89 * x[0], percent(5), PRACTICE),
  'outrunner-stator-diameter': rule('stator diameter, 0.83 of the can', 'length', (x) => 0.83 * x[0], percent(5), PRACTICE),
  'inrunner-slot-contact': rule(
    'winding to stator: 700 W/(m\xB2\xB7K) \xD7 slot diameter \xD7 stack',
    'conductance',
    (x) => 700 * x[0] * x[1],
    percent(75),
    PRACTICE,
    percent(20),
  ),
  'outrunner-slot-contact': rule(
    'winding to stator: 900 W/(m\xB2\xB7K) \xD7 stator diameter \xD7 stack',
    'conductance',
    (x) => 900 * x[0] * x[1],
    percent(75),
    PRACTICE,
    percent(20),
  ),
  'press-fit': rule(
    'stator to can through a press fit: 3000 W/(m\xB2\xB7K)',
    'conductance',
    (x) => 3e3 * Math.PI * x[0] * x[1],
    percent(100),
    PRACTICE,
    percent(20),
  ),
  'no-path': fixed('no such path in this layout', 'conductance', SURE, definition),
  'inrunner-gap': rule(
    'stator to rotor across the gap: 80 W/(m\xB2\xB7K)',
    'conductance',
    (x) => 80 * Math.PI * 0.55 * x[0] * x[1],
    percent(60),
    PRACTICE,
  ),
  'outrunner-gap': rule(
    'stator to magnets across the gap: 100 W/(m\xB2\xB7K)',
    'conductance',
    (x) => 100 * Math.PI * x[0] * x[1],
    percent(60),
    PRACTICE,
  ),
  'bonded-magnets': rule(
    'magnets to the bell: 2000 W/(m\xB2\xB7K)',
    'conductance',
    (x) => 2e3 * Math.PI * x[0] * x[1],
    percent(100),
    PRACTICE,
  ),
  'shaft-and-bearings': fixed('rotor to can through shaft and bearings', 'conductance', percent(70), PRACTICE),
  'bearing-tube': rule(
    'stator to mount through the bearing tube: 7 W/(m\xB7K) \xD7 can diameter',
    'conductance',
    (x) => 7 * x[0],
    percent(80),
    PRACTICE,
    percent(30),
  ),
  flange: rule('can to mount through its flange: 3 W/(m\xB7K) \xD7 can diameter', 'conductance', (x) => 3 * x[0], percent(80), PRACTICE),
  'can-side': rule('side of the can, \u03C0\xB7D\xB7L', 'area', (x) => Math.PI * x[0] * x[1], SURE, 'geometry'),
  'can-ends': rule('both ends of the can, \u03C0\xB7D\xB2/2', 'area', (x) => 0.5 * Math.PI * x[0] ** 2, SURE, 'geometry'),
  'can-emissivity': fixed('emissivity of the can', 'fraction', points(0.3), PRACTICE),
  'convection-error': fixed('factor on the can\u2019s convection', 'ratio', percent(35), 'spread of handbook correlations', percent(10)),
  'through-flow': rule(
    'air through an open motor: 0.08 W\xB7s/(m\xB2\xB7K) \xD7 winding and stator faces',
    'heatCapacity',
    (x) => 0.08 * 2 * Math.PI * x[0] * x[1] * x[2],
    percent(80),
    PRACTICE,
    percent(30),
  ),
  openness: fixed('share of the free air that reaches the motor', 'fraction', points(0.2), PRACTICE),
  'winding-capacity': rule(
    'heat capacity of the winding, 0.20 of the motor\u2019s mass at 390 J/(kg\xB7K)',
    'heatCapacity',
    (x) => 0.2 * 390 * x[0],
    percent(35),
    PRACTICE,
    percent(12),
  ),
  'stator-capacity': rule(
    'heat capacity of the stator iron, 0.30 of the mass at 460 J/(kg\xB7K)',
    'heatCapacity',
    (x) => 0.3 * 460 * x[0],
    percent(30),
    PRACTICE,
    percent(12),
  ),
  'can-capacity': rule(
    'heat capacity of can and ends, 0.25 of the mass at 650 J/(kg\xB7K)',
    'heatCapacity',
    (x) => 0.25 * 650 * x[0],
    percent(35),
    PRACTICE,
    percent(12),
  ),
  'magnet-capacity': rule(
    'heat capacity of rotor and magnets, 0.25 of the mass at 450 J/(kg\xB7K)',
    'heatCapacity',
    (x) => 0.25 * 450 * x[0],
    percent(30),
    PRACTICE,
    percent(12),
  ),
  'jacket-rest': fixed('share of the water jacket\u2019s conductance left at rest', 'fraction', points(0.06), PRACTICE),
  'still-air': fixed('air speed at the motor', 'speed', SURE, 'assumed still'),
  'no-share': fixed('share of the vehicle\u2019s speed that reaches the motor', 'fraction', SURE, 'assumed closed in'),
  'slipstream-share': fixed('share of the slipstream that reaches the motor', 'fraction', points(0.3), PRACTICE),
  // load
  'direct-drive': fixed('no gearbox', 'ratio', SURE, definition),
  'gear-efficiency': fixed('efficiency of the gearbox', 'fraction', points(0.04), PRACTICE),
  'gear-mass': fixed('mass of the gearbox', 'mass', SURE, 'assumed part of the vehicle'),
  'shaft-efficiency': fixed('efficiency of shaft and bearings', 'fraction', SURE, 'none between motor and propeller'),
  'no-wake': fixed('wake fraction', 'fraction', SURE, 'open water or air'),
  'no-deduction': fixed('thrust deduction', 'fraction', SURE, 'open water or air'),
  'propeller-inertia': rule(
    'propeller inertia, 0.09 kg/m\xB3 \xD7 diameter\u2075',
    'inertia',
    (x) => 0.09 * x[0] ** 5,
    percent(80),
    PRACTICE,
  ),
  'coefficient-error': fixed('factor on the propeller\u2019s coefficients', 'ratio', percent(5), PRACTICE, percent(1e-3)),
  'power-coefficient-error': fixed('factor on the propeller\u2019s power coefficient', 'ratio', percent(5), PRACTICE, percent(1e-3)),
  'marine-thrust-error': fixed('factor on the screw\u2019s thrust coefficient at model size', 'ratio', percent(5), PRACTICE),
  'marine-power-error': fixed('factor on the screw\u2019s torque coefficient at model size', 'ratio', percent(10), PRACTICE),
  'blade-element-thrust-error': fixed(
    'factor on the calculated thrust',
    'ratio',
    percent(20),
    'scatter against the UIUC Propeller Database',
  ),
  'blade-element-power-error': fixed('factor on the calculated power', 'ratio', percent(20), 'scatter against the UIUC Propeller Database'),
  'tyre-grip': fixed('grip of the tyres', 'ratio', percent(25), PRACTICE),
  'no-inertia': fixed('inertia of the wheels', 'inertia', SURE, 'assumed small'),
  'all-up-mass': rule('mass of vehicle, pack, motors and gearboxes', 'mass', (x) => x[0] + x[1] + x[4] * (x[2] + x[3]), SURE, definition),
  'drive-count': fixed('drives on the pack', 'ratio', SURE, definition),
  'on-the-bench': fixed('held on a bench', 'mass', SURE, definition),
  'added-mass': fixed('water carried along by the hull', 'fraction', points(0.04), PRACTICE),
  'no-added-mass': fixed('no added mass', 'fraction', SURE, definition),
  'drag-error': fixed('factor on the vehicle\u2019s drag', 'ratio', percent(10), PRACTICE),
  'no-drag-area': fixed('no drag area', 'area', SURE, definition),
  'wing-drag-area': rule('drag area of the wing', 'area', (x) => x[0] * x[1], SURE, definition),
  'induced-factor': rule(
    'induced drag factor',
    'ratio',
    (x) => 1 / (Math.PI * x[1] * x[2] * x[0]),
    SURE,
    'J. D. Anderson, Introduction to Flight, ch. 5 (from memory)',
  ),
  'no-wing': fixed('no wing', 'ratio', SURE, definition),
  'span-efficiency': fixed('span efficiency', 'ratio', percent(10), PRACTICE),
  'zero-lift-drag': fixed('zero-lift drag coefficient', 'ratio', percent(25), PRACTICE),
  'most-lift': fixed('largest lift coefficient', 'ratio', percent(15), PRACTICE),
  'lift-area': rule('most lift over dynamic pressure', 'area', (x) => x[0] * x[1], SURE, definition),
  'no-rolling': fixed('no rolling resistance', 'ratio', SURE, definition),
  // limits
  'insulation-class': fixed('winding limit by insulation class', 'temperature', SURE, 'IEC 60085'),
  'usual-insulation': fixed('winding limit, class B assumed', 'temperature', SURE, 'IEC 60085'),
  'magnet-grade': fixed('magnet limit by grade', 'temperature', SURE, 'magnet makers\u2019 tables'),
  'usual-magnets': fixed('magnet limit, grade M assumed', 'temperature', SURE, PRACTICE),
  'usual-controller': fixed('controller limit', 'temperature', SURE, PRACTICE),
  'usual-cells': fixed('cell limit', 'temperature', SURE, PRACTICE),
  'no-limit': fixed('no such limit', 'ratio', SURE, definition),
  'no-reserve': fixed('charge that must be left', 'fraction', SURE, 'none asked for'),
  'no-other-loads': fixed('other loads on the pack', 'power', SURE, 'none given'),
};
function twoPoints(x) {
  const [kt, r, i0, v0, i1, v1] = x;
  const w0 = (v0 - i0 * r) / kt;
  const w1 = (v1 - i1 * r) / kt;
  const slope = (kt * (i1 - i0)) / (w1 - w0);
  return { constant: kt * i0 - slope * w0, slope };
}

// packages/sim-core/src/provenance/realise.ts
var NOMINAL = () => 0;
function datumValue(datum, draw, known) {
  const found2 = known.get(datum);
  if (found2 !== void 0) return found2;
  const { origin, unknown, own } = datum;
  let value2 =
    origin.kind === 'given' || origin.kind === 'default'
      ? datum.value
      : RULES[origin.rule].law(origin.inputs.map((input) => datumValue(input, draw, known)));
  if (unknown.spread.shape !== 'none') value2 = drawn(value2, unknown.spread, draw(unknown.key, unknown.spread));
  if (own !== void 0 && own.spread.shape !== 'none') value2 = drawn(value2, own.spread, draw(own.key, own.spread));
  known.set(datum, value2);
  return value2;
}
function realise(data, draw = NOMINAL) {
  const known = /* @__PURE__ */ new Map();
  const plain = (x) => {
    if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x)) return x;
    if (isDatum(x)) return datumValue(x, draw, known);
    const out = {};
    for (const key in x) out[key] = plain(x[key]);
    return out;
  };
  const { load, battery: battery2, vehicle: vehicle2, ...rest } = data;
  const table = load.kind === 'propeller' ? { table: load.table } : {};
  return {
    ...plain(rest),
    load: { ...plain({ ...load, table: void 0 }), ...table },
    battery: { ...plain({ ...battery2, openCircuit: void 0 }), openCircuit: battery2.openCircuit },
    vehicle: { ...plain({ ...vehicle2, dragTable: void 0 }), dragTable: vehicle2.dragTable },
  };
}

// packages/sim-core/src/numerics/interpolation.ts
function requireTable(x, y2) {
  if (x.length !== y2.length || x.length < 2) {
    throw new RangeError(`A table needs two points or more, as many x as y; it has ${x.length} x and ${y2.length} y.`);
  }
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i]) || !Number.isFinite(y2[i])) throw new RangeError(`Point ${i + 1} of a table is (${x[i]}, ${y2[i]}).`);
    if (i > 0 && !(x[i] > x[i - 1])) throw new RangeError(`The x of a table must rise, but ${x[i]} follows ${x[i - 1]}.`);
  }
}
function intervalAt(x, at2) {
  let low = 0;
  let high = x.length - 1;
  if (!(at2 >= x[low] && at2 <= x[high])) throw new RangeError(`${at2} lies outside the table, which runs from ${x[low]} to ${x[high]}.`);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle] <= at2) low = middle;
    else high = middle;
  }
  return low;
}
function endSlope(h, delta, nextH, nextDelta) {
  const slope = ((2 * h + nextH) * delta - h * nextDelta) / (h + nextH);
  if (Math.sign(slope) !== Math.sign(delta)) return 0;
  return Math.sign(delta) !== Math.sign(nextDelta) && Math.abs(slope) > 3 * Math.abs(delta) ? 3 * delta : slope;
}
function monotoneCubic(x, y2) {
  requireTable(x, y2);
  const last = x.length - 1;
  const h = (k) => x[k + 1] - x[k];
  const delta = (k) => (y2[k + 1] - y2[k]) / h(k);
  const slope = new Float64Array(x.length);
  if (last === 1) {
    slope.fill(delta(0));
  } else {
    slope[0] = endSlope(h(0), delta(0), h(1), delta(1));
    slope[last] = endSlope(h(last - 1), delta(last - 1), h(last - 2), delta(last - 2));
    for (let k = 1; k < last; k++) {
      const left = delta(k - 1);
      const right = delta(k);
      const weightLeft = 2 * h(k) + h(k - 1);
      const weightRight = h(k) + 2 * h(k - 1);
      slope[k] = left * right > 0 ? (weightLeft + weightRight) / (weightLeft / left + weightRight / right) : 0;
    }
  }
  return { x: Float64Array.from(x), y: Float64Array.from(y2), slope };
}
function monotoneCubicAt({ x, y: y2, slope }, at2) {
  const k = intervalAt(x, at2);
  const h = x[k + 1] - x[k];
  const s = (at2 - x[k]) / h;
  const delta = (y2[k + 1] - y2[k]) / h;
  const excessLeft = delta - slope[k];
  const excessRight = slope[k + 1] - delta;
  return y2[k] + h * s * (slope[k] + s * (2 * excessLeft - excessRight + s * (excessRight - excessLeft)));
}

// packages/sim-core/src/parts/open-circuit.ts
var GRID = 400;
var polymerVoltage = (s) => -1.031 * Math.exp(-35 * s) + 3.685 + 0.2156 * s - 0.1178 * s ** 2 + 0.3201 * s ** 3;
var hydrideVoltage = (s) => 1.2816 - 14e-4 / Math.max(s, 0.02) + 0.111 * Math.exp(-2.3077 * 6.5 * (1 - s));
var IRON_PHOSPHATE = [
  [0, 2.1606],
  [0.02, 2.8536],
  [0.05, 3.0373],
  [0.1, 3.1834],
  [0.15, 3.2186],
  [0.2, 3.245],
  [0.25, 3.2641],
  [0.3, 3.2798],
  [0.35, 3.2916],
  [0.4, 3.3016],
  [0.45, 3.3058],
  [0.5, 3.3081],
  [0.55, 3.3116],
  [0.6, 3.3168],
  [0.65, 3.3228],
  [0.7, 3.3303],
  [0.75, 3.3409],
  [0.8, 3.3453],
  [0.85, 3.3478],
  [0.9, 3.3518],
  [0.95, 3.3658],
  [1, 3.59],
];
var LITHIUM_ION = [
  [0, 2.5],
  [0.02, 2.8598],
  [0.05, 3.1067],
  [0.1, 3.2923],
  [0.15, 3.4314],
  [0.2, 3.4835],
  [0.25, 3.526],
  [0.3, 3.5781],
  [0.35, 3.626],
  [0.4, 3.664],
  [0.45, 3.7015],
  [0.5, 3.7459],
  [0.55, 3.7931],
  [0.6, 3.8354],
  [0.65, 3.8816],
  [0.7, 3.9405],
  [0.75, 3.987],
  [0.8, 4.0342],
  [0.85, 4.0757],
  [0.9, 4.0947],
  [0.95, 4.1144],
  [1, 4.1809],
];
function curveFrom(name, voltageAt) {
  const voltage = new Float64Array(GRID + 1);
  const slope = new Float64Array(GRID + 1);
  const step = 1e-5;
  for (let k = 0; k <= GRID; k++) {
    const s = k / GRID;
    voltage[k] = voltageAt(s);
    slope[k] =
      k === 0
        ? (4 * voltageAt(step) - 3 * voltageAt(0) - voltageAt(2 * step)) / (2 * step)
        : k === GRID
          ? (3 * voltageAt(1) - 4 * voltageAt(1 - step) + voltageAt(1 - 2 * step)) / (2 * step)
          : (voltageAt(s + step) - voltageAt(s - step)) / (2 * step);
  }
  return { name, voltage, slope };
}
function curveFromTable(name, rows) {
  if (rows.length < 2 || rows.some((row, k) => k > 0 && row[0] <= rows[k - 1][0])) {
    throw new RangeError('an open-circuit table needs at least two rows with the charge rising from row to row');
  }
  const cubic = monotoneCubic(
    rows.map((row) => row[0]),
    rows.map((row) => row[1]),
  );
  const [first, last] = [rows[0][0], rows[rows.length - 1][0]];
  return curveFrom(name, (s) => monotoneCubicAt(cubic, Math.min(last, Math.max(first, s))));
}
function openCircuitCurve(chemistry) {
  switch (chemistry) {
    case 'lithium-polymer':
      return curveFrom(chemistry, polymerVoltage);
    case 'nickel-metal-hydride':
      return curveFrom(chemistry, hydrideVoltage);
    case 'lithium-ion':
      return curveFromTable(chemistry, LITHIUM_ION);
    case 'lithium-iron-phosphate':
      return curveFromTable(chemistry, IRON_PHOSPHATE);
  }
}

// packages/sim-core/src/parts/propeller/blade-families.ts
var DEGREE = Math.PI / 180;
var FACE_TO_CHORD = 0.5 * DEGREE;
var STEEPEST_ROOT = 45 * DEGREE;
var SHAPES = {
  'thin-electric': {
    camber: 0.04,
    stations: [
      [0.15, 0.14, 0.16],
      [0.25, 0.175, 0.12],
      [0.4, 0.205, 0.1],
      [0.5, 0.2, 0.09],
      [0.6, 0.18, 0.085],
      [0.7, 0.15, 0.08],
      [0.8, 0.117, 0.08],
      [0.9, 0.085, 0.08],
      [0.95, 0.065, 0.08],
      [1, 0.04, 0.08],
    ],
  },
  'slow-flyer': {
    camber: 0.06,
    stations: [
      [0.15, 0.115, 0.1],
      [0.25, 0.155, 0.07],
      [0.4, 0.2, 0.055],
      [0.5, 0.215, 0.05],
      [0.6, 0.215, 0.045],
      [0.7, 0.2, 0.045],
      [0.8, 0.172, 0.045],
      [0.9, 0.125, 0.045],
      [0.95, 0.088, 0.045],
      [1, 0.045, 0.045],
    ],
  },
  sport: {
    camber: 0.03,
    stations: [
      [0.15, 0.16, 0.2],
      [0.25, 0.158, 0.16],
      [0.4, 0.162, 0.13],
      [0.5, 0.165, 0.12],
      [0.6, 0.165, 0.11],
      [0.7, 0.157, 0.105],
      [0.8, 0.14, 0.1],
      [0.9, 0.108, 0.1],
      [0.95, 0.08, 0.1],
      [1, 0.04, 0.1],
    ],
  },
  folding: {
    camber: 0.045,
    stations: [
      [0.15, 0.09, 0.18],
      [0.25, 0.115, 0.13],
      [0.4, 0.145, 0.1],
      [0.5, 0.152, 0.09],
      [0.6, 0.15, 0.08],
      [0.7, 0.138, 0.075],
      [0.8, 0.118, 0.07],
      [0.9, 0.09, 0.07],
      [0.95, 0.068, 0.07],
      [1, 0.035, 0.07],
    ],
  },
};
var HUB_RADIUS = 0.1;
var REFERENCE_DIAMETER = 0.25;
var BREADTH_EXPONENT = 0.25;
function familyGeometry(family, size) {
  const { diameter, pitch, blades } = size;
  if (!(diameter > 0 && pitch > 0) || !Number.isFinite(diameter + pitch)) {
    throw new RangeError(`diameter and pitch of a propeller must be positive, not ${diameter} m and ${pitch} m`);
  }
  const { camber, stations } = SHAPES[family];
  const breadth = (REFERENCE_DIAMETER / diameter) ** BREADTH_EXPONENT;
  return {
    blades,
    hubRadius: HUB_RADIUS,
    stations: stations.map(([radius, chord, thickness]) => ({
      radius,
      chord: chord * breadth,
      twist: Math.min(STEEPEST_ROOT, Math.atan(pitch / (Math.PI * diameter * radius)) + FACE_TO_CHORD),
      camber,
      thickness,
    })),
  };
}
function measuredGeometry(stations, family, blades) {
  const shape = SHAPES[family];
  return {
    blades,
    hubRadius: Math.min(HUB_RADIUS, stations[0]?.radius ?? HUB_RADIUS),
    stations: stations.map((station) => ({ ...station, camber: shape.camber, thickness: thicknessAt(shape.stations, station.radius) })),
  };
}
function thicknessAt(stations, radius) {
  const after = stations.findIndex(([x]) => x >= radius);
  if (after <= 0) return (after === 0 ? stations[0] : stations.at(-1))[2];
  const [x0, , t02] = stations[after - 1];
  const [x1, , t1] = stations[after];
  return t02 + ((t1 - t02) * (radius - x0)) / (x1 - x0);
}

// packages/sim-core/src/parts/propeller/section-polar.ts
var DEGREE2 = Math.PI / 180;
var LIFT_SLOPE = 5.7;
var SUCTION_LOST = 0.09;
var LAMINAR_FRICTION = 2.656;
var LAMINAR_FORM = 2.2;
var TURBULENT_FLOOR = 65e-4;
var STALL_ANGLE = 16 * DEGREE2;
var FADE_FROM = 30 * DEGREE2;
var FADE_TO = 50 * DEGREE2;
function zeroLiftAngle(camber, reynolds) {
  return (-2 * camber * reynolds) / (reynolds + 18e3);
}
function thinSectionPolar(section2, chordOverRadius) {
  const { camber, thickness } = section2;
  const form = LAMINAR_FORM * LAMINAR_FRICTION * (1 + 2 * thickness + 60 * thickness ** 4);
  const delay = Math.min(1, 3.1 * chordOverRadius ** 2);
  return (angleOfAttack, reynolds) => {
    const effective = Math.sin(angleOfAttack - zeroLiftAngle(camber, reynolds));
    const attached = LIFT_SLOPE * effective;
    const sine = Math.sin(angleOfAttack);
    const plate = sine / (0.222 + 0.55 * Math.abs(sine));
    const fade = (FADE_TO - Math.abs(angleOfAttack)) / (FADE_TO - FADE_FROM);
    const normal = plate + delay * Math.min(1, Math.max(0, fade)) * (attached - plate);
    const ratio = (angleOfAttack * (reynolds + 2500)) / (STALL_ANGLE * reynolds);
    const square = ratio * ratio;
    const share2 = 1 / (1 + square * square * square * square);
    const friction = Math.sqrt((form * form) / reynolds + TURBULENT_FLOOR * TURBULENT_FLOOR);
    return {
      lift: share2 * attached + (1 - share2) * normal * Math.cos(angleOfAttack),
      drag: friction + share2 * SUCTION_LOST * attached * effective + (1 - share2) * normal * sine,
    };
  };
}

// packages/sim-core/src/parts/propeller/shape-preserving-slopes.ts
function shapePreservingSlopes(x, y2) {
  const last = x.length - 1;
  const slopes = new Float64Array(x.length);
  if (last < 1) return slopes;
  const width = (i) => x[i + 1] - x[i];
  const secant = (i) => (y2[i + 1] - y2[i]) / width(i);
  if (last === 1) return slopes.fill(secant(0));
  for (let i = 1; i < last; i++) {
    const before = secant(i - 1);
    const after = secant(i);
    const parabola = (before * width(i) + after * width(i - 1)) / (width(i - 1) + width(i));
    const size = Math.min(Math.abs(before), Math.abs(after), Math.abs(parabola) / 2);
    slopes[i] = (Math.sign(before) + Math.sign(after)) * size;
  }
  slopes[0] = endSlope2(secant(0), secant(1), width(0), width(1));
  slopes[last] = endSlope2(secant(last - 1), secant(last - 2), width(last - 1), width(last - 2));
  return slopes;
}
function endSlope2(nearSecant, farSecant, nearWidth, farWidth) {
  const share2 = nearWidth / (nearWidth + farWidth);
  const parabola = nearSecant * (1 + share2) - farSecant * share2;
  if (parabola * nearSecant <= 0) return 0;
  return Math.abs(parabola) > 2 * Math.abs(nearSecant) ? 2 * nearSecant : parabola;
}

// packages/sim-core/src/parts/propeller/blade-geometry.ts
var ELEMENTS = 14;
function rotorFromGeometry(geometry, count3 = ELEMENTS) {
  checkGeometry(geometry);
  const { blades, hubRadius, stations } = geometry;
  const radii = Float64Array.from(stations, (station) => station.radius);
  const along = (take) => curve(radii, Float64Array.from(stations, take));
  const chordAt = along((station) => station.chord);
  const twistAt = along((station) => station.twist);
  const camberAt = along((station) => station.camber);
  const thicknessAt2 = along((station) => station.thickness);
  const first = radii[0];
  const edge = (i) => first + (1 - first) * Math.sin((Math.PI * i) / (2 * count3));
  const elements = Array.from({ length: count3 }, (_, i) => {
    const radius = (edge(i) + edge(i + 1)) / 2;
    const chord = chordAt(radius);
    return {
      radius,
      width: edge(i + 1) - edge(i),
      chord,
      twist: twistAt(radius),
      polar: thinSectionPolar({ camber: camberAt(radius), thickness: thicknessAt2(radius) }, chord / radius),
    };
  });
  return { blades, hubRadius, losses: true, elements };
}
function checkGeometry({ blades, hubRadius, stations }) {
  if (!Number.isInteger(blades) || blades < 1) throw new RangeError(`a propeller has a whole number of blades, not ${blades}`);
  if (stations.length < 3) throw new RangeError(`a blade needs at least three stations, this one has ${stations.length}`);
  if (!(hubRadius >= 0 && hubRadius <= stations[0].radius)) {
    throw new RangeError(`the hub radius ${hubRadius} must lie between 0 and the first station at ${stations[0].radius} of the tip radius`);
  }
  for (const [index, station] of stations.entries()) {
    const where = `blade station ${index + 1}`;
    const { radius, chord, twist, camber, thickness } = station;
    if (![radius, chord, twist, camber, thickness].every(Number.isFinite))
      throw new RangeError(`${where} holds a value that is not a finite number`);
    if (!(radius > 0 && radius <= 1)) throw new RangeError(`${where}: the radius ${radius} must lie between 0 and 1 of the tip radius`);
    if (index > 0 && radius <= stations[index - 1].radius)
      throw new RangeError(`${where}: the radius ${radius} does not increase; sort the stations`);
    if (!(chord > 0)) throw new RangeError(`${where}: the chord ${chord} must be positive`);
    if (Math.abs(twist) >= Math.PI / 2) throw new RangeError(`${where}: the twist must lie within \xB190\xB0`);
  }
  if (stations.at(-1).radius < 0.9) throw new RangeError('the last blade station must lie at 0.9 of the tip radius or further out');
}
function curve(x, y2) {
  const slopes = shapePreservingSlopes(x, y2);
  const last = x.length - 1;
  return (at2) => {
    if (at2 <= x[0]) return y2[0];
    if (at2 >= x[last]) return y2[last];
    let i = 0;
    while (at2 > x[i + 1]) i++;
    const h = x[i + 1] - x[i];
    const s = (at2 - x[i]) / h;
    const rise = y2[i + 1] - y2[i];
    const start2 = h * slopes[i];
    const end = h * slopes[i + 1];
    return y2[i] + s * (start2 + s * (3 * rise - 2 * start2 - end + s * (start2 + end - 2 * rise)));
  };
}

// packages/sim-core/src/parts/propeller/blade-element.ts
var SMALLEST_ANGLE = 1e-6;
function prandtlLoss(rotor, radius, sine) {
  const share2 = (gap) => (2 / Math.PI) * Math.acos(Math.exp((-rotor.blades * gap) / (2 * sine)));
  const tip = share2((1 - radius) / radius);
  return rotor.hubRadius > 0 ? tip * share2((radius - rotor.hubRadius) / rotor.hubRadius) : tip;
}
function elementLoad(rotor, element, advanceRatio, discReynolds) {
  const { blades } = rotor;
  const { radius, chord, twist, polar } = element;
  const rotation = Math.PI * radius;
  const solidity = (blades * chord) / (2 * Math.PI * radius);
  const reynolds = Math.hypot(advanceRatio, rotation) * (chord / 2) * discReynolds;
  const momentum = (through) => solidity / (4 * (rotor.losses ? prandtlLoss(rotor, radius, through) : 1));
  const residual2 = (angle2) => {
    const sine2 = Math.sin(angle2);
    const cosine2 = Math.cos(angle2);
    const through = Math.abs(sine2);
    const { lift: lift2, drag: drag2 } = polar(twist - angle2, reynolds);
    const force = lift2 * (advanceRatio * sine2 + rotation * cosine2) + drag2 * (advanceRatio * cosine2 - rotation * sine2);
    return through * (advanceRatio * cosine2 - rotation * sine2) + momentum(through) * force;
  };
  const undisturbed = Math.max(Math.atan2(advanceRatio, rotation), SMALLEST_ANGLE);
  const [low, high] = bracketInflow(residual2, undisturbed, twist);
  const angle = brent(residual2, low, high, ANGLE_TOLERANCE);
  const sine = Math.sin(angle);
  const cosine = Math.cos(angle);
  const { lift, drag } = polar(twist - angle, reynolds);
  const speed = (advanceRatio * sine + rotation * cosine) / (1 + (momentum(Math.abs(sine)) * drag) / Math.abs(sine));
  const load = (blades * speed * speed * chord) / 8;
  const thrust = load * (lift * cosine - drag * sine);
  const power2 = Math.PI * load * (lift * sine + drag * cosine) * radius;
  return { inflowAngle: angle, speed, thrust, power: power2 };
}
var ANGLE_TOLERANCE = 1e-7;
var NEGATIVE_LIFT = 0.12;
function bracketInflow(residual2, undisturbed, twist) {
  if (residual2(undisturbed) > 0) {
    const near = twist + NEGATIVE_LIFT;
    return [undisturbed, near > undisturbed && near < Math.PI / 2 && residual2(near) < 0 ? near : Math.PI / 2];
  }
  return residual2(SMALLEST_ANGLE) > 0 ? [SMALLEST_ANGLE, undisturbed] : [-Math.PI / 2, -SMALLEST_ANGLE];
}
function rotorCoefficients(rotor, advanceRatio, discReynolds) {
  let thrustCoefficient = 0;
  let powerCoefficient = 0;
  for (const element of rotor.elements) {
    const load = elementLoad(rotor, element, advanceRatio, discReynolds);
    thrustCoefficient += load.thrust * element.width;
    powerCoefficient += load.power * element.width;
  }
  return { thrustCoefficient, powerCoefficient };
}

// packages/sim-core/src/parts/propeller/coefficient-table.ts
function createCoefficientTable(rows) {
  if (rows.length < 2) {
    throw new RangeError(
      `a coefficient table needs at least two advance ratios, this one has ${rows.length}; add the row where the thrust vanishes, or give a single static measurement as measured points`,
    );
  }
  return assembleTable([{ discReynolds: 1, rows }]);
}
function createReynoldsTable(sheets) {
  if (sheets.length === 0) throw new RangeError('a coefficient table needs at least one Reynolds number');
  const first = sheets[0].rows;
  for (const [index, sheet] of sheets.entries()) {
    if (!(sheet.discReynolds > 0) || !Number.isFinite(sheet.discReynolds)) {
      throw new RangeError(`Reynolds number ${sheet.discReynolds} of sheet ${index + 1} must be positive and finite`);
    }
    if (index > 0 && sheet.discReynolds <= sheets[index - 1].discReynolds) {
      throw new RangeError(`Reynolds numbers must increase: sheet ${index + 1} has ${sheet.discReynolds}`);
    }
    if (sheet.rows.length !== first.length || sheet.rows.some((row, i) => row.advanceRatio !== first[i].advanceRatio)) {
      throw new RangeError(`sheet ${index + 1} must list the same advance ratios as the first sheet`);
    }
  }
  if (first.length < 2) throw new RangeError(`a coefficient table needs at least two advance ratios, this one has ${first.length}`);
  return assembleTable(sheets);
}
function createConstantTable(row) {
  return assembleTable([{ discReynolds: 1, rows: [row] }]);
}
function assembleTable(sheets) {
  const advanceRatio = Float64Array.from(sheets[0].rows, (row) => row.advanceRatio);
  for (const sheet of sheets) for (const [index, row] of sheet.rows.entries()) checkRow(row, sheet.rows[index - 1], index);
  const columns = (take) => sheets.map((sheet) => sheet.rows.map(take));
  const thrust = columns((row) => row.thrustCoefficient);
  const power2 = columns((row) => row.powerCoefficient);
  const slopes = (values) => values.flatMap((sheet) => [...shapePreservingSlopes(advanceRatio, Float64Array.from(sheet))]);
  return {
    advanceRatio,
    logReynolds: Float64Array.from(sheets, (sheet) => Math.log(sheet.discReynolds)),
    thrust: Float64Array.from(thrust.flat()),
    power: Float64Array.from(power2.flat()),
    thrustSlope: Float64Array.from(slopes(thrust)),
    powerSlope: Float64Array.from(slopes(power2)),
    evenStep: evenStep(advanceRatio),
    supported: { from: advanceRatio[0], to: advanceRatio.at(-1) },
  };
}
function checkRow(row, before, index) {
  if (![row.advanceRatio, row.thrustCoefficient, row.powerCoefficient].every(Number.isFinite)) {
    throw new RangeError(`row ${index + 1} of the coefficient table holds a value that is not a finite number`);
  }
  if (row.advanceRatio < 0) {
    throw new RangeError(`row ${index + 1}: advance ratio ${row.advanceRatio} is negative; flow from behind is not modelled`);
  }
  if (before && row.advanceRatio <= before.advanceRatio) {
    throw new RangeError(
      `row ${index + 1}: advance ratio ${row.advanceRatio} does not exceed ${before.advanceRatio} in the row before; sort the rows`,
    );
  }
}
function evenStep(x) {
  if (x.length < 2) return 0;
  const step = (x.at(-1) - x[0]) / (x.length - 1);
  return x.every((value2, i) => Math.abs(value2 - x[0] - i * step) <= 1e-9 * step) ? step : 0;
}

// packages/sim-core/src/parts/propeller/blade-table.ts
var BLADE_TABLE_REYNOLDS = [5e4, 14e4, 4e5, 11e5, 3e6];
var EVEN_ROWS = 24;
var FAR_ROWS = [1.15, 1.35, 1.7, 2.3, 3.5, 6, 20];
function bladeElementTable(rotor) {
  const end = lastAdvanceRatio(rotor);
  const advanceRatios = Array.from({ length: EVEN_ROWS + 1 }, (_, i) => (end * i) / EVEN_ROWS).concat(
    FAR_ROWS.map((factor) => factor * end),
  );
  const table = createReynoldsTable(
    BLADE_TABLE_REYNOLDS.map((discReynolds) => ({
      discReynolds,
      rows: advanceRatios.map((advanceRatio) => ({ advanceRatio, ...rotorCoefficients(rotor, advanceRatio, discReynolds) })),
    })),
  );
  return { ...table, supported: { from: 0, to: end } };
}
function lastAdvanceRatio(rotor) {
  const reference = rotor.elements.reduce((best, element) =>
    Math.abs(element.radius - 0.75) < Math.abs(best.radius - 0.75) ? element : best,
  );
  const zeroLift = (3 * Math.PI) / 180;
  const end = 1.4 * Math.PI * reference.radius * Math.tan(reference.twist + zeroLift);
  if (!(end > 0.05) || !Number.isFinite(end)) throw new RangeError('the blade has no forward pitch at three quarters of its radius');
  return end;
}

// packages/sim-core/src/parts/propeller/marine-series-terms.ts
var THRUST_TERMS = [
  [880496e-8, 0, 0, 0, 0],
  [-0.204554, 1, 0, 0, 0],
  [0.166351, 0, 1, 0, 0],
  [0.158114, 0, 2, 0, 0],
  [-0.147581, 2, 0, 1, 0],
  [-0.481497, 1, 1, 1, 0],
  [0.415437, 0, 2, 1, 0],
  [0.0144043, 0, 0, 0, 1],
  [-0.0530054, 2, 0, 0, 1],
  [0.0143481, 0, 1, 0, 1],
  [0.0606826, 1, 1, 0, 1],
  [-0.0125894, 0, 0, 1, 1],
  [0.0109689, 1, 0, 1, 1],
  [-0.133698, 0, 3, 0, 0],
  [638407e-8, 0, 6, 0, 0],
  [-132718e-8, 2, 6, 0, 0],
  [0.168496, 3, 0, 1, 0],
  [-0.0507214, 0, 0, 2, 0],
  [0.0854559, 2, 0, 2, 0],
  [-0.0504475, 3, 0, 2, 0],
  [0.010465, 1, 6, 2, 0],
  [-648272e-8, 2, 6, 2, 0],
  [-841728e-8, 0, 3, 0, 1],
  [0.0168424, 1, 3, 0, 1],
  [-102296e-8, 3, 3, 0, 1],
  [-0.0317791, 0, 3, 1, 1],
  [0.018604, 1, 0, 2, 1],
  [-410798e-8, 0, 2, 2, 1],
  [-606848e-9, 0, 0, 0, 2],
  [-49819e-7, 1, 0, 0, 2],
  [25983e-7, 2, 0, 0, 2],
  [-560528e-9, 3, 0, 0, 2],
  [-163652e-8, 1, 2, 0, 2],
  [-328787e-9, 1, 6, 0, 2],
  [116502e-9, 2, 6, 0, 2],
  [690904e-9, 0, 0, 1, 2],
  [421749e-8, 0, 3, 1, 2],
  [565229e-10, 3, 6, 1, 2],
  [-146564e-8, 0, 3, 2, 2],
];
var TORQUE_TERMS = [
  [379368e-8, 0, 0, 0, 0],
  [886523e-8, 2, 0, 0, 0],
  [-0.032241, 1, 1, 0, 0],
  [344778e-8, 0, 2, 0, 0],
  [-0.0408811, 0, 1, 1, 0],
  [-0.108009, 1, 1, 1, 0],
  [-0.0885381, 2, 1, 1, 0],
  [0.188561, 0, 2, 1, 0],
  [-370871e-8, 1, 0, 0, 1],
  [513696e-8, 0, 1, 0, 1],
  [0.0209449, 1, 1, 0, 1],
  [474319e-8, 2, 1, 0, 1],
  [-723408e-8, 2, 0, 1, 1],
  [438388e-8, 1, 1, 1, 1],
  [-0.0269403, 0, 2, 1, 1],
  [0.0558082, 3, 0, 1, 0],
  [0.0161886, 0, 3, 1, 0],
  [318086e-8, 1, 3, 1, 0],
  [0.015896, 0, 0, 2, 0],
  [0.0471729, 1, 0, 2, 0],
  [0.0196283, 3, 0, 2, 0],
  [-0.0502782, 0, 1, 2, 0],
  [-0.030055, 3, 1, 2, 0],
  [0.0417122, 2, 2, 2, 0],
  [-0.0397722, 0, 3, 2, 0],
  [-350024e-8, 0, 6, 2, 0],
  [-0.0106854, 3, 0, 0, 1],
  [110903e-8, 3, 3, 0, 1],
  [-313912e-9, 0, 6, 0, 1],
  [35985e-7, 3, 0, 1, 1],
  [-142121e-8, 0, 6, 1, 1],
  [-383637e-8, 1, 0, 2, 1],
  [0.0126803, 0, 2, 2, 1],
  [-318278e-8, 2, 3, 2, 1],
  [334268e-8, 0, 6, 2, 1],
  [-183491e-8, 1, 1, 0, 2],
  [112451e-9, 3, 2, 0, 2],
  [-297228e-10, 3, 6, 0, 2],
  [269551e-9, 1, 0, 1, 2],
  [83265e-8, 2, 0, 1, 2],
  [155334e-8, 0, 2, 1, 2],
  [302683e-9, 0, 6, 1, 2],
  [-1843e-7, 0, 0, 2, 2],
  [-425399e-9, 0, 3, 2, 2],
  [869243e-10, 3, 3, 2, 2],
  [-4659e-7, 0, 6, 2, 2],
  [554194e-10, 1, 6, 2, 2],
];

// packages/sim-core/src/parts/propeller/marine-series.ts
var MARINE_SERIES_RANGE = {
  blades: { from: 2, to: 7 },
  areaRatio: { from: 0.3, to: 1.05 },
  pitchRatio: { from: 0.5, to: 1.4 },
};
var MARINE_CORRECTION_FROM = 2e6;
var MARINE_CORRECTION_TO = 2e9;
function marineRangeProblems(screw) {
  const problems = [];
  const { blades, areaRatio, pitchRatio } = MARINE_SERIES_RANGE;
  const inside = (value2, range2) => value2 >= range2.from && value2 <= range2.to;
  if (!Number.isInteger(screw.blades) || !inside(screw.blades, blades)) {
    problems.push(`the B-series has screws of ${blades.from} to ${blades.to} blades, not ${screw.blades}`);
  }
  if (!inside(screw.areaRatio, areaRatio)) {
    problems.push(`the B-series covers area ratios of ${areaRatio.from} to ${areaRatio.to}, not ${screw.areaRatio}`);
  }
  if (!inside(screw.pitchRatio, pitchRatio)) {
    problems.push(`the B-series covers pitch ratios of ${pitchRatio.from} to ${pitchRatio.to}, not ${screw.pitchRatio}`);
  }
  return problems;
}
function marineOpenWater(screw, reynolds) {
  const problems = marineRangeProblems(screw);
  if (problems.length > 0) throw new RangeError(problems.join('; '));
  const thrust = collect(THRUST_TERMS, screw);
  const torque = collect(TORQUE_TERMS, screw);
  if (reynolds !== void 0) {
    if (!(reynolds > 0) || reynolds > MARINE_CORRECTION_TO) {
      throw new RangeError(`the Reynolds number of a screw must be positive and at most ${MARINE_CORRECTION_TO}, not ${reynolds}`);
    }
    if (reynolds > MARINE_CORRECTION_FROM) {
      for (const [power2, value2] of thrustCorrection(screw, reynolds).entries()) thrust[power2] += value2;
      for (const [power2, value2] of torqueCorrection(screw, reynolds).entries()) torque[power2] += value2;
    }
  }
  const zeroThrust = firstZero(thrust, 2 * screw.pitchRatio);
  if (zeroThrust === void 0) throw new RangeError(`the thrust of this screw does not vanish below J = ${2 * screw.pitchRatio}`);
  return { thrust, torque, zeroThrust };
}
function collect(terms, screw) {
  const cubic = [0, 0, 0, 0];
  for (const [coefficient, j, p, a, z10] of terms) {
    cubic[j] += coefficient * screw.pitchRatio ** p * screw.areaRatio ** a * screw.blades ** z10;
  }
  return cubic;
}
function thrustCorrection(screw, reynolds) {
  const { blades: z10, areaRatio: a, pitchRatio: p } = screw;
  const c = Math.log10(reynolds) - 0.301;
  return [
    353485e-9,
    -478125e-8 * a * p + 954e-7 * c * z10 * a * p + 32049e-10 * c * z10 ** 2 * a * p ** 3,
    -333758e-8 * a + 257792e-9 * c ** 2 * a + 643192e-10 * c * p ** 6 - 110636e-10 * c ** 2 * p ** 6 - 276305e-10 * c ** 2 * z10 * a,
  ];
}
function torqueCorrection(screw, reynolds) {
  const { blades: z10, areaRatio: a, pitchRatio: p } = screw;
  const c = Math.log10(reynolds) - 0.301;
  return [
    -591412e-9 +
      696898e-8 * p -
      666654e-10 * z10 * p ** 6 +
      0.0160818 * a ** 2 -
      938091e-9 * c * p -
      59593e-8 * c * p ** 2 +
      782099e-10 * c ** 2 * p ** 2 +
      230171e-10 * c * z10 * p ** 6 -
      184341e-11 * c ** 2 * z10 * p ** 6 -
      400252e-8 * c * a ** 2 +
      220915e-9 * c ** 2 * a ** 2,
    -88528e-11 * c ** 2 * z10 * a * p,
    52199e-10 * c * z10 * a,
  ];
}

// packages/sim-core/src/parts/propeller/marine-coasting.ts
var LOCKED_BLADE_NORMAL_COEFFICIENT = 1.2;
var HELD_FROM = 30;
function marineTable(screw, reynolds) {
  const { thrust, torque, zeroThrust } = marineOpenWater(screw, reynolds);
  const power2 = torque.map((coefficient) => 2 * Math.PI * coefficient);
  const locked = lockedScrew(screw);
  return tableFromPieces(
    [
      { to: zeroThrust, thrust, power: power2 },
      {
        to: HELD_FROM * zeroThrust,
        thrust: coastingParabola(thrust, zeroThrust, locked.thrust),
        power: coastingParabola(power2, zeroThrust, 2 * Math.PI * locked.torque),
      },
    ],
    zeroThrust,
  );
}
function lockedScrew(screw) {
  const pitchAngle = Math.atan(screw.pitchRatio / (0.7 * Math.PI));
  const normalForce = (Math.PI / 8) * screw.areaRatio * LOCKED_BLADE_NORMAL_COEFFICIENT;
  return { thrust: -normalForce * Math.cos(pitchAngle), torque: -normalForce * Math.sin(pitchAngle) * 0.35 };
}
function coastingParabola(cubic, joint, quadratic) {
  const linear2 = polynomialSlope(cubic, joint) - 2 * quadratic * joint;
  return [evaluatePolynomial(cubic, joint) - linear2 * joint - quadratic * joint ** 2, linear2, quadratic];
}

// packages/sim-core/src/parts/propeller/measured-points.ts
var STATIC_FIGURE_OF_MERIT = { value: 0.55, halfWidth: 0.25 };
var SAME_ADVANCE_RATIO = 5e-3;
function tableFromMeasuredPoints(points2, diameter, density) {
  if (points2.length === 0) throw new RangeError('give at least one measured point: a speed with thrust, torque or shaft power');
  if (!(diameter > 0) || !(density > 0)) throw new RangeError('diameter and density of the measurement must be positive');
  const samples = points2
    .map((point2, index) => readPoint(point2, index, diameter, density))
    .sort((a, b) => a.advanceRatio - b.advanceRatio);
  const groups = [];
  for (const sample of samples) {
    const group2 = groups.at(-1);
    if (group2 && sample.advanceRatio - group2[0].advanceRatio < SAME_ADVANCE_RATIO) group2.push(sample);
    else groups.push([sample]);
  }
  const thrust = fitGroups(groups, (sample) => sample.thrust);
  const power2 = fitGroups(groups, (sample) => sample.power);
  const estimated = power2 === void 0 ? 'power' : thrust === void 0 ? 'thrust' : void 0;
  if (estimated && (groups.length > 1 || groups[0][0].advanceRatio > 0)) {
    throw new RangeError(`measured points under way need both thrust and torque (or shaft power); ${estimated} is missing`);
  }
  const rows = groups.map((group2, index) => {
    const merit = Math.sqrt(2 / Math.PI) / STATIC_FIGURE_OF_MERIT.value;
    const powerCoefficient = power2 ? power2.values[index] : merit * positive(thrust.values[index], 'thrust') ** 1.5;
    const thrustCoefficient = thrust ? thrust.values[index] : (positive(powerCoefficient, 'power') / merit) ** (2 / 3);
    return {
      advanceRatio: group2.reduce((sum, sample) => sum + sample.advanceRatio, 0) / group2.length,
      thrustCoefficient,
      powerCoefficient,
    };
  });
  return {
    table: rows.length === 1 ? createConstantTable(rows[0]) : createCoefficientTable(rows),
    ...(thrust && { thrustResidual: thrust.residual }),
    ...(power2 && { powerResidual: power2.residual }),
    ...(estimated && { estimated }),
  };
}
function readPoint(point2, index, diameter, density) {
  const { angularSpeed, advanceSpeed = 0, thrust, torque, shaftPower } = point2;
  const where = `measured point ${index + 1}`;
  if (!(angularSpeed > 0) || !Number.isFinite(angularSpeed)) throw new RangeError(`${where}: the shaft speed must be positive and finite`);
  if (!(advanceSpeed >= 0) || !Number.isFinite(advanceSpeed)) throw new RangeError(`${where}: the speed of advance must not be negative`);
  for (const value2 of [thrust, torque, shaftPower]) {
    if (value2 !== void 0 && !Number.isFinite(value2)) throw new RangeError(`${where} holds a value that is not a finite number`);
  }
  if (thrust === void 0 && torque === void 0 && shaftPower === void 0) {
    throw new RangeError(`${where} has neither thrust nor torque nor shaft power`);
  }
  if (torque !== void 0 && shaftPower !== void 0 && Math.abs(torque * angularSpeed - shaftPower) > 0.02 * Math.abs(shaftPower)) {
    throw new RangeError(
      `${where}: torque times speed is ${torque * angularSpeed} W, but the shaft power says ${shaftPower} W; give one of them`,
    );
  }
  const speed = angularSpeed / (2 * Math.PI);
  const scale = density * speed ** 2 * diameter ** 4;
  const turning2 = torque ?? (shaftPower === void 0 ? void 0 : shaftPower / angularSpeed);
  return {
    advanceRatio: advanceSpeed / (speed * diameter),
    weight: speed ** 4,
    thrust: thrust === void 0 ? void 0 : thrust / scale,
    power: turning2 === void 0 ? void 0 : (2 * Math.PI * turning2) / (scale * diameter),
  };
}
function fitGroups(groups, take) {
  const values = [];
  let squares = 0;
  let count3 = 0;
  for (const group2 of groups) {
    const measured = group2.filter((sample) => take(sample) !== void 0);
    if (measured.length === 0) continue;
    const weight = measured.reduce((sum, sample) => sum + sample.weight, 0);
    const value2 = measured.reduce((sum, sample) => sum + sample.weight * take(sample), 0) / weight;
    values.push(value2);
    for (const sample of measured) squares += value2 === 0 ? 0 : (take(sample) / value2 - 1) ** 2;
    count3 += measured.length;
  }
  if (values.length === 0) return void 0;
  if (values.length < groups.length) throw new RangeError('every advance ratio of the measured points needs the same quantities');
  return { values, residual: Math.sqrt(squares / count3) };
}
function positive(value2, name) {
  if (!(value2 > 0)) throw new RangeError(`the other coefficient can be estimated from a positive ${name} only, not from ${value2}`);
  return value2;
}

// packages/sim-core/src/provenance/complete-load.ts
var value = (x) => (typeof x === 'number' ? x : x.value);
function completeLoad(fill, given2, medium) {
  const { wheel: wheel2, propeller: propeller2 } = given2;
  if (wheel2 !== void 0) {
    return {
      kind: 'wheel',
      radius: fill.need(wheel2.radius, wheel2.place, 'radius', 'half the tyre\u2019s diameter, measured under load'),
      grip: wheel2.grip ?? fill.fixed('tyre-grip', 0.9),
      inertia: wheel2.inertia ?? fill.fixed('no-inertia', 0),
    };
  }
  const place = propeller2?.place ?? { ...given2.place, path: 'propeller' };
  if (propeller2 === void 0) fill.missing(place, 'kind', 'a propeller or a wheel', 'say what the motor turns');
  const diameter = fill.need(propeller2?.diameter, place, 'diameter', 'printed on the blade as diameter \xD7 pitch');
  const inWater = propeller2?.kind === 'marine-series' || propeller2?.medium === 'water';
  const kind = medium.waterKind ?? 'fresh';
  const density = inWater
    ? fill.by(`${kind}-water-density`, medium.waterTemperature)
    : fill.by('air-density', medium.airTemperature, medium.airPressure);
  const kinematicViscosity = inWater
    ? fill.by(`${kind}-water-viscosity`, medium.waterTemperature)
    : fill.by('air-viscosity', medium.airTemperature, medium.airPressure);
  const errors = factors(fill, propeller2);
  return {
    kind: 'propeller',
    diameter,
    ...errors,
    density,
    kinematicViscosity,
    wakeFraction: propeller2?.wakeFraction ?? fill.fixed('no-wake', 0),
    thrustDeduction: propeller2?.thrustDeduction ?? fill.fixed('no-deduction', 0),
    shaftEfficiency: propeller2?.shaftEfficiency ?? fill.fixed('shaft-efficiency', 1),
    inertia: propeller2?.inertia ?? fill.by('propeller-inertia', diameter),
    folding: propeller2?.folding ?? (propeller2?.kind === 'blade-element' && propeller2.family === 'folding'),
    table: propeller2 === void 0 || Number.isNaN(diameter.value) ? EMPTY : tableOf(fill, propeller2, diameter.value, density.value),
  };
}
var EMPTY = createCoefficientTable([
  { advanceRatio: 0, thrustCoefficient: Number.MIN_VALUE, powerCoefficient: Number.MIN_VALUE },
  { advanceRatio: 1, thrustCoefficient: Number.MIN_VALUE, powerCoefficient: Number.MIN_VALUE },
]);
function factors(fill, propeller2) {
  switch (propeller2?.kind) {
    case 'marine-series':
      return { thrustFactor: fill.fixed('marine-thrust-error', 1), powerFactor: fill.fixed('marine-power-error', 1) };
    case 'blade-element':
      return { thrustFactor: fill.fixed('blade-element-thrust-error', 1), powerFactor: fill.fixed('blade-element-power-error', 1) };
    case 'coefficients':
      return {
        thrustFactor: propeller2.thrustFactor ?? fill.fixed('coefficient-error', 1),
        powerFactor: propeller2.powerFactor ?? fill.fixed('power-coefficient-error', 1),
      };
    default:
      return { thrustFactor: fill.fixed('coefficient-error', 1), powerFactor: fill.fixed('power-coefficient-error', 1) };
  }
}
function tableOf(fill, propeller2, diameter, density) {
  const problem2 = (path, found2, hint) => {
    fill.problems.push({
      kind: 'out-of-range',
      place: { ...propeller2.place, path: `${propeller2.place.path}.${path}` },
      expected: 'a propeller inside its model',
      found: found2,
      hint,
    });
    return EMPTY;
  };
  try {
    switch (propeller2.kind) {
      case 'coefficients':
        return createCoefficientTable(
          propeller2.table.map((row) => ({
            advanceRatio: value(row.advanceRatio),
            thrustCoefficient: value(row.thrust),
            powerCoefficient: value(row.power),
          })),
        );
      case 'measured-points':
        return tableFromMeasuredPoints(
          propeller2.points.map((point2) => ({
            angularSpeed: point2.shaftSpeed.value,
            ...(point2.thrust && { thrust: point2.thrust.value }),
            ...(point2.torque && { torque: point2.torque.value }),
            ...(point2.shaftPower && { shaftPower: point2.shaftPower.value }),
            ...(point2.vehicleSpeed && { advanceSpeed: point2.vehicleSpeed.value }),
          })),
          diameter,
          density,
        ).table;
      case 'marine-series': {
        const pitchRatio = propeller2.pitchRatio?.value ?? (propeller2.pitch === void 0 ? Number.NaN : propeller2.pitch.value / diameter);
        const screw = { blades: propeller2.blades ?? 3, areaRatio: propeller2.areaRatio?.value ?? 0.5, pitchRatio };
        if (Number.isNaN(pitchRatio))
          return problem2('pitch_ratio', 'no pitch', 'give pitch_ratio, or pitch; both stand on the screw or in its list');
        const outside = marineRangeProblems(screw);
        if (outside.length > 0)
          return problem2('kind', outside.join('; '), 'use kind: measured-points or coefficients for a screw outside the series');
        return marineTable(screw);
      }
      case 'blade-element': {
        if (propeller2.stations !== void 0) {
          const stations = propeller2.stations.map((s) => ({ radius: value(s.radius), chord: value(s.chord), twist: value(s.twist) }));
          return bladeElementTable(
            rotorFromGeometry(measuredGeometry(stations, propeller2.family ?? 'thin-electric', propeller2.blades ?? 2)),
          );
        }
        if (propeller2.pitch === void 0) return problem2('pitch', 'no pitch', 'printed on the blade as diameter \xD7 pitch');
        return bladeElementTable(
          rotorFromGeometry(
            familyGeometry(propeller2.family ?? 'thin-electric', {
              diameter,
              pitch: propeller2.pitch.value,
              blades: propeller2.blades ?? 2,
            }),
          ),
        );
      }
    }
  } catch (error) {
    if (error instanceof RangeError) return problem2('kind', error.message, 'correct the numbers of the propeller');
    throw error;
  }
}

// packages/sim-core/src/provenance/complete.ts
var absent = (dimension) => ({
  dimension,
  value: Number.NaN,
  unknown: { key: 'absent', spread: { shape: 'none' } },
  origin: { kind: 'default', rule: 'no-limit', inputs: [] },
});
function createFiller(candidate) {
  const problems = [];
  const made = (id, value2, kind, inputs) => {
    const rule2 = RULES[id];
    const own = rule2.own.shape === 'none' ? {} : { own: { key: `rule:${id}@${candidate}`, spread: rule2.own } };
    return {
      dimension: rule2.dimension,
      value: value2,
      unknown: { key: `rule:${id}`, spread: rule2.common },
      ...own,
      origin: { kind, rule: id, inputs },
    };
  };
  return {
    problems,
    by: (id, ...inputs) =>
      made(id, RULES[id].law(inputs.map((input) => input.value)), RULES[id].common.shape === 'none' ? 'derived' : 'estimated', inputs),
    fixed: (id, value2) => made(id, value2, 'default', []),
    need: (given2, place, key, whereToFind) => {
      if (given2 !== void 0) return given2;
      problems.push({
        kind: 'missing-datum',
        place: { ...place, path: `${place.path}.${key}` },
        expected: key,
        found: 'nothing',
        hint: whereToFind,
      });
      return absent('ratio');
    },
    missing: (place, key, expected, hint) => {
      problems.push({ kind: 'missing-datum', place: { ...place, path: `${place.path}.${key}` }, expected, found: 'nothing', hint });
    },
  };
}
var CUTOFF = { 'lithium-polymer': 3.3, 'lithium-ion': 2.8, 'lithium-iron-phosphate': 2.5, 'nickel-metal-hydride': 0.9 };
var NOMINAL_VOLTAGE = { 'lithium-polymer': 3.7, 'lithium-ion': 3.6, 'lithium-iron-phosphate': 3.2, 'nickel-metal-hydride': 1.2 };
var CLASS_LIMIT = { A: 105, E: 120, B: 130, F: 155, H: 180, N: 200 };
var GRADE_LIMIT = { N: 80, M: 100, H: 120, SH: 150, UH: 180, EH: 200, AH: 230 };
var celsius = (value2) => ZERO_CELSIUS + value2;
function complete(candidate, given2) {
  const fill = createFiller(candidate);
  const ambient2 = given2.ambient;
  const airTemperature = ambient2?.air ?? fill.fixed('standard-day', celsius(15));
  const altitude = ambient2?.altitude ?? fill.fixed('sea-level', 0);
  const airPressure = ambient2?.pressure ?? fill.by('pressure-at-altitude', altitude);
  const surroundings = {
    airTemperature,
    airPressure,
    compartmentTemperature: ambient2?.compartment ?? fill.by('as-the-air', airTemperature),
    waterTemperature: ambient2?.water ?? fill.fixed('mild-water', celsius(15)),
  };
  const battery2 = completeBattery(fill, given2);
  const controller2 = completeController(fill, given2);
  const motor2 = completeMotor(fill, given2);
  const gearbox2 = {
    ratio: given2.gearbox?.ratio ?? fill.fixed('direct-drive', 1),
    efficiency:
      given2.gearbox === void 0 ? fill.fixed('direct-drive', 1) : (given2.gearbox.efficiency ?? fill.fixed('gear-efficiency', 0.95)),
    mass: given2.gearbox?.mass ?? fill.fixed('gear-mass', 0),
  };
  const medium = { airTemperature, airPressure, waterTemperature: surroundings.waterTemperature, waterKind: ambient2?.waterKind };
  const load = completeLoad(fill, given2, medium);
  const vehicle2 = completeVehicle(fill, given2, battery2.mass, motor2.mass, gearbox2.mass, medium);
  const start2 = {
    charge: given2.start?.charge ?? fill.fixed('full-charge', 1),
    motorTemperature: given2.start?.temperature ?? fill.by('as-the-air', airTemperature),
    controllerTemperature: given2.start?.temperature ?? fill.by('as-the-air', airTemperature),
    cellTemperature: given2.start?.batteryTemperature ?? given2.start?.temperature ?? fill.by('as-the-air', airTemperature),
  };
  const wiring2 = { resistance: completeWiring(fill, given2) };
  const heat = completeHeat(fill, given2, motor2, battery2, controller2);
  const limits2 = completeLimits(fill, given2, battery2);
  if (fill.problems.length > 0) return { ok: false, problems: fill.problems };
  return {
    ok: true,
    data: {
      surroundings,
      battery: battery2,
      wiring: wiring2,
      controller: controller2,
      motor: motor2,
      gearbox: gearbox2,
      load,
      vehicle: vehicle2,
      heat,
      start: start2,
      limits: limits2,
      otherLoads: given2.otherLoads ?? fill.fixed('no-other-loads', 0),
      drives: given2.drives ?? 1,
    },
  };
}
function completeBattery(fill, given2) {
  const pack = given2.battery;
  const place = pack?.place ?? { ...given2.place, path: 'battery' };
  const chemistry = pack?.chemistry ?? 'lithium-polymer';
  const series = pack?.cells?.series ?? 1;
  const parallel = pack?.cells?.parallel ?? 1;
  if (pack?.cells === void 0) fill.missing(place, 'cells', 'cells in series', 'printed on the pack as 4S, or its voltage over 3.7 V');
  const capacity2 = fill.need(pack?.capacity, place, 'capacity', 'printed on the pack in mAh');
  const cellCapacity = { ...capacity2, value: capacity2.value / parallel };
  const cellResistance = pack?.cellResistance ?? fill.by(`cell-resistance-${chemistry}`, parallel === 1 ? capacity2 : cellCapacity);
  const voltage = fill.fixed('nominal-voltage', NOMINAL_VOLTAGE[chemistry] * series);
  return {
    chemistry,
    cellsInSeries: series,
    cellsInParallel: parallel,
    capacity: capacity2,
    cellResistance,
    polarisationResistance: pack?.polarisation?.resistance ?? fill.by('slow-resistance', cellResistance),
    polarisationTime: pack?.polarisation?.time ?? fill.fixed('slow-time', 30),
    activation: fill.fixed('resistance-activation', 2500),
    voltageOffset: fill.fixed('open-circuit-error', 0),
    mass: pack?.mass ?? fill.by('pack-mass', capacity2, voltage),
    openCircuit:
      pack?.openCircuit === void 0
        ? openCircuitCurve(chemistry)
        : curveFromTable(
            'given',
            pack.openCircuit.map((row) => [row.charge, row.voltage]),
          ),
  };
}
function completeController(fill, given2) {
  const esc = given2.controller;
  return {
    pathResistance: esc?.pathResistance ?? fill.fixed('path-resistance', 4e-3),
    resistanceCoefficient: fill.fixed('device-temperature-coefficient', 5e-3),
    switchingTime: esc?.switchingTime ?? fill.fixed('switching-time', 2e-7),
    pwmFrequency: esc?.pwmFrequency ?? fill.fixed('pwm-frequency', 16e3),
    voltageLoss: esc?.voltageLoss ?? fill.fixed('voltage-loss', 2e-3),
    diodeDrop: esc?.freewheeling === 'diode' ? fill.fixed('diode-drop', 0.8) : fill.fixed('no-diode', 0),
    idleCurrent: esc?.idleCurrent ?? fill.fixed('idle-current', 0.06),
    motorCurrentLimit: esc?.motorCurrentLimit ?? fill.fixed('no-limit', Number.POSITIVE_INFINITY),
    batteryCurrentLimit: esc?.batteryCurrentLimit ?? fill.fixed('no-limit', Number.POSITIVE_INFINITY),
    mass: esc?.mass ?? fill.fixed('controller-mass', 0.05),
    braking: esc?.braking ?? 'none',
  };
}
function completeWiring(fill, given2) {
  const wiring2 = given2.wiring;
  if (wiring2?.resistance !== void 0) return wiring2.resistance;
  return fill.by(
    'wiring-from-gauge',
    wiring2?.gauge ?? fill.fixed('wire-area', 33e-7),
    wiring2?.length ?? fill.fixed('wire-length', 0.2),
    fill.fixed('connector-count', wiring2?.connectors ?? 2),
    fill.fixed('connector-contact', 3e-4),
  );
}
function completeMotor(fill, given2) {
  const sheet = given2.motor;
  const place = sheet?.place ?? { ...given2.place, path: 'motor' };
  if (sheet?.layout === void 0) fill.missing(place, 'layout', 'layout', 'outrunner if the can turns with the shaft, else inrunner');
  const layout = sheet?.layout ?? 'inrunner';
  const kv = fill.need(sheet?.kv, place, 'kv', 'on every spec sheet, in rpm/V; or spin it and divide rpm by volts');
  const torqueConstant = fill.by(sheet?.kvMeasured === 'back-emf' ? 'kt-from-back-emf' : 'kt-from-kv', kv);
  const written = fill.need(
    sheet?.resistance,
    place,
    'resistance',
    'spec sheet, Ri or Rm; or pass a known current through two leads and read the millivolts',
  );
  const resistance = sheet?.resistanceBetween === 'phase-and-star' ? fill.by('line-from-phase', written) : written;
  const mass = fill.need(sheet?.mass, place, 'mass', 'spec sheet, or a kitchen scale');
  const diameter = fill.need(
    sheet?.can?.diameter,
    place,
    'can.diameter',
    'the outside of the can, by caliper; often in the motor\u2019s name',
  );
  const length = fill.need(sheet?.can?.length, place, 'can.length', 'the can without the shaft, by caliper');
  const points2 = sheet?.noLoad ?? [];
  const first = points2[0];
  const current = fill.need(
    first?.current,
    place,
    'no_load.current',
    'spec sheet, Io or no-load current; or the ammeter with nothing on the shaft',
  );
  const voltage = fill.need(first?.voltage, place, 'no_load.voltage', 'the voltage that stands beside the no-load current');
  const last = points2[points2.length - 1];
  let constant;
  let eddyTorque;
  if (points2.length > 1) {
    const inputs = [torqueConstant, resistance, current, voltage, last.current, last.voltage];
    constant = fill.by('constant-loss-from-two', ...inputs);
    eddyTorque = fill.by('speed-loss-from-two', ...inputs);
    if (!(constant.value >= 0 && eddyTorque.value >= 0)) {
      fill.problems.push({
        kind: 'conflict',
        place: { ...place, path: `${place.path}.no_load` },
        expected: 'a no-load current that rises gently with voltage',
        found: 'points whose loss torque falls with speed, or vanishes at rest',
        hint: 'measure both points with the same wiring, or give one point only',
      });
    }
  } else {
    const share2 = fill.fixed('constant-loss-share', 0.5);
    constant = fill.by('constant-loss-torque', torqueConstant, resistance, current, voltage, share2);
    eddyTorque = fill.by('speed-loss-torque', torqueConstant, resistance, current, voltage, share2);
  }
  const friction = fill.fixed('friction-share', 0.3);
  if (sheet?.poles === void 0 || sheet.poles % 2 !== 0) {
    if (sheet?.poles !== void 0) fill.missing(place, 'poles', 'an even number of poles', 'count the magnets');
  }
  return {
    torqueConstant,
    resistance,
    resistanceCoefficient: fill.fixed('copper-coefficient', 393e-5),
    fluxCoefficient: fill.fixed('flux-coefficient', ['SH', 'UH', 'EH', 'AH'].includes(sheet?.magnetGrade ?? 'M') ? -11e-4 : -12e-4),
    hysteresisTorque: fill.by('hysteresis-torque', constant, friction),
    eddyTorque,
    frictionTorque: fill.by('friction-torque', constant, friction),
    windageTorque: fill.fixed('no-windage', 0),
    magnetLossShare: fill.fixed('magnet-loss-share', 0.07),
    rotorInertia: sheet?.rotorInertia ?? fill.by(`${layout}-inertia`, mass, diameter),
    mass,
    canDiameter: diameter,
    canLength: length,
    polePairs: (sheet?.poles ?? (layout === 'inrunner' ? 4 : 14)) / 2,
    layout,
  };
}
function completeVehicle(fill, given2, packMass, motorMass, gearMass, medium) {
  const vehicle2 = given2.vehicle;
  const wheel2 = given2.wheel;
  const none = fill.fixed('no-drag-area', 0);
  const wing = vehicle2?.wing;
  const marine = given2.propeller?.kind === 'marine-series' || given2.propeller?.medium === 'water';
  const density = fill.by('air-density', medium.airTemperature, medium.airPressure);
  if (vehicle2 === void 0) {
    return {
      mass: fill.fixed('on-the-bench', 1),
      addedMass: fill.fixed('no-added-mass', 0),
      dragFactor: fill.fixed('no-wing', 1),
      dragArea: none,
      inducedFactor: fill.fixed('no-wing', 0),
      liftArea: fill.fixed('no-limit', Number.POSITIVE_INFINITY),
      density,
      rollingResistance: fill.fixed('no-rolling', 0),
      dragTable: void 0,
      carriedBy: 'bench',
    };
  }
  const own = fill.need(vehicle2.mass, vehicle2.place, 'mass', 'weigh it ready to run, less motor and pack');
  const wingArea = wing === void 0 ? void 0 : fill.need(wing.area, vehicle2.place, 'wing.area', 'span times mean chord');
  const aspect = wing === void 0 ? void 0 : fill.need(wing.aspectRatio, vehicle2.place, 'wing.aspect_ratio', 'span squared over wing area');
  return {
    mass: fill.by('all-up-mass', own, packMass, motorMass, gearMass, fill.fixed('drive-count', given2.drives ?? 1)),
    addedMass: vehicle2.addedMass ?? (marine ? fill.fixed('added-mass', 0.08) : fill.fixed('no-added-mass', 0)),
    dragFactor: vehicle2.dragFactor ?? fill.fixed('drag-error', 1),
    dragArea:
      wingArea !== void 0
        ? fill.by('wing-drag-area', wingArea, wing?.zeroLiftDrag ?? fill.fixed('zero-lift-drag', 0.03))
        : (vehicle2.dragArea ?? wheel2?.dragArea ?? none),
    inducedFactor:
      wingArea !== void 0 && aspect !== void 0
        ? fill.by('induced-factor', wingArea, aspect, wing?.spanEfficiency ?? fill.fixed('span-efficiency', 0.8))
        : fill.fixed('no-wing', 0),
    liftArea:
      wingArea !== void 0
        ? fill.by('lift-area', wingArea, wing?.mostLift ?? fill.fixed('most-lift', 1.2))
        : fill.fixed('no-limit', Number.POSITIVE_INFINITY),
    density,
    rollingResistance: wheel2?.rollingResistance ?? fill.fixed('no-rolling', 0),
    dragTable: vehicle2.drag === void 0 ? void 0 : dragTable(vehicle2.drag),
    carriedBy: wing !== void 0 ? 'wing' : wheel2 !== void 0 ? 'wheels' : 'water',
  };
}
function dragTable(rows) {
  const plain = (x) => (typeof x === 'number' ? x : x.value);
  const speeds = rows.map((row) => plain(row.speed));
  const forces = rows.map((row) => plain(row.force));
  if (speeds[0] > 0) {
    speeds.unshift(0);
    forces.unshift(0);
  }
  const { slope } = monotoneCubic(speeds, forces);
  const slopes = Float64Array.from(slope);
  slopes[0] = 0;
  return { speed: Float64Array.from(speeds), force: Float64Array.from(forces), slope: slopes };
}
function completeHeat(fill, given2, motor2, battery2, controller2) {
  const thermal2 = given2.motor?.thermal;
  const { layout, canDiameter: diameter, canLength: length, mass } = motor2;
  const stack = given2.motor?.stackLength ?? fill.by(`${layout}-stack`, length);
  const bore = given2.motor?.statorDiameter ?? fill.by(`${layout}-stator-diameter`, diameter);
  const none = fill.fixed('no-path', 0);
  const outrunner = layout === 'outrunner';
  const cooling2 = given2.cooling;
  const jacket = cooling2?.waterJacket;
  const open = cooling2?.air?.openness ?? fill.fixed('openness', outrunner ? 1 : 0);
  const mount = cooling2?.mount?.conductance;
  const closedCan = thermal2?.canToAir;
  if (outrunner && jacket !== void 0 && jacket.covers !== 'mount') {
    fill.problems.push({
      kind: 'conflict',
      place: jacket.place,
      expected: 'a jacket on the mount of an outrunner',
      found: 'a jacket on its turning bell',
      hint: 'write covers: mount, or choose layout: inrunner',
    });
  }
  return {
    capacity: {
      winding: thermal2?.windingCapacity ?? fill.by('winding-capacity', mass),
      stator: thermal2?.statorCapacity ?? fill.by('stator-capacity', mass),
      can: thermal2?.canCapacity ?? fill.by('can-capacity', mass),
      magnets: fill.by('magnet-capacity', mass),
      controller: given2.controller?.thermal?.capacity ?? fill.by('controller-heat-capacity', controller2.mass),
      cells: given2.battery?.thermal?.capacity ?? fill.by('cell-heat-capacity', battery2.mass),
    },
    windingToStator: thermal2?.windingToStator ?? fill.by(`${layout}-slot-contact`, bore, stack),
    statorToCan: outrunner ? none : (thermal2?.statorToCan ?? fill.by('press-fit', bore, stack)),
    statorToMagnets: fill.by(`${layout}-gap`, bore, stack),
    magnetsToCan: outrunner ? fill.by('bonded-magnets', diameter, stack) : fill.fixed('shaft-and-bearings', 0.05),
    statorToMount: outrunner ? (mount ?? fill.by('bearing-tube', diameter)) : none,
    canToMount: closedCan ?? (outrunner ? none : (mount ?? fill.by('flange', diameter))),
    controllerToAir: given2.controller?.thermal?.toAir ?? fill.by('controller-to-air', controller2.mass),
    cellsToAir: given2.battery?.thermal?.toAir ?? fill.by('cells-to-air', battery2.mass),
    throughFlow: outrunner ? fill.by('through-flow', bore, stack, open) : none,
    sideArea: closedCan === void 0 ? fill.by('can-side', diameter, length) : none,
    endArea: closedCan === void 0 ? fill.by('can-ends', diameter) : none,
    canDiameter: diameter,
    canLength: length,
    emissivity: fill.fixed('can-emissivity', 0.6),
    convectionFactor: fill.fixed('convection-error', 1),
    openness: open,
    airSpeed: cooling2?.air?.speed ?? fill.fixed('still-air', 0),
    vehicleSpeedShare: cooling2?.air?.shareOfVehicleSpeed ?? fill.fixed('no-share', 0),
    slipstreamShare: cooling2?.air?.shareOfSlipstream ?? fill.fixed('no-share', 0),
    jacket:
      jacket === void 0
        ? void 0
        : {
            conductance: fill.need(
              jacket.conductance,
              jacket.place,
              'conductance',
              'watts carried away per kelvin between can and water; 1 to 3 W/K for model jackets',
            ),
            speed: fill.need(jacket.atSpeed, jacket.place, 'at_speed', 'the boat\u2019s speed at which that conductance holds'),
            restShare: jacket.restShare ?? fill.fixed('jacket-rest', 0.12),
          },
    jacketCovers: jacket?.covers ?? 'can',
    layout,
  };
}
function completeLimits(fill, given2, battery2) {
  const { limits: limits2, motor: motor2 } = given2;
  const maker = motor2?.makerLimits;
  const none = fill.fixed('no-limit', Number.POSITIVE_INFINITY);
  const chemistry = given2.battery?.chemistry ?? 'lithium-polymer';
  const rating = given2.battery?.dischargeRating;
  return {
    windingTemperature:
      limits2?.winding ??
      (motor2?.insulationClass === void 0
        ? fill.fixed('usual-insulation', celsius(CLASS_LIMIT.B))
        : fill.fixed('insulation-class', celsius(CLASS_LIMIT[motor2.insulationClass]))),
    magnetTemperature:
      limits2?.magnets ??
      (motor2?.magnetGrade === void 0
        ? fill.fixed('usual-magnets', celsius(GRADE_LIMIT.M))
        : fill.fixed('magnet-grade', celsius(GRADE_LIMIT[motor2.magnetGrade]))),
    controllerTemperature: limits2?.controller ?? fill.fixed('usual-controller', celsius(95)),
    cellTemperature: limits2?.cells ?? fill.fixed('usual-cells', celsius(60)),
    motorCurrent: maker?.current ?? none,
    inputPower: maker?.inputPower ?? none,
    shaftSpeed: maker?.shaftSpeed ?? none,
    busVoltage: maker?.voltage ?? none,
    batteryCurrent: rating === void 0 ? none : fill.by('rated-current', battery2.capacity, rating),
    batteryPower: limits2?.batteryPower ?? none,
    batteryEnergy: limits2?.energy ?? none,
    cellVoltage: given2.battery?.cellCutoff ?? fill.fixed('chemistry-cutoff', CUTOFF[chemistry]),
    reserve: limits2?.reserve ?? fill.fixed('no-reserve', 0),
  };
}

// packages/sim-core/src/scenario/json-schema.ts
// packages/sim-core/src/scenario/schema/drive.ts
import { z as z7, z as z8 } from 'zod';

// packages/sim-core/src/provenance/given.ts
var CHEMISTRIES = ['lithium-polymer', 'lithium-ion', 'lithium-iron-phosphate', 'nickel-metal-hydride'];
var INSULATION_CLASSES = ['A', 'E', 'B', 'F', 'H', 'N'];
var MAGNET_GRADES = ['N', 'M', 'H', 'SH', 'UH', 'EH', 'AH'];
var OBJECTIVES = ['coolest', 'longest', 'fastest', 'lightest'];

// packages/sim-core/src/scenario/schema/bounds.ts
var POSITIVE = { above: 0 };
var WINDING = { above: 0, to: 100 };
var CONDUCTOR = { from: 0, to: 10 };
var NOT_NEGATIVE = { from: 0 };
var SHARE = { from: 0, to: 1 };
var SHARE_BUT_NONE = { above: 0, to: 1 };
var within = (value2, { above: above2, from, below, to }) =>
  (above2 === void 0 || value2 > above2) &&
  (from === void 0 || value2 >= from) &&
  (below === void 0 || value2 < below) &&
  (to === void 0 || value2 <= to);
function expectedWithin(bounds, dimension, unit) {
  const shown = (si) => (si === 0 && dimension !== 'temperature' ? '0' : formatQuantity(si, dimension, { unit, space: ' ' }));
  return `${expectation(dimension)}; here ${boundsInWords(bounds, shown)}`;
}
function boundsInWords({ above: above2, from, below, to }, shown) {
  const words2 = [];
  if (above2 !== void 0) words2.push(`above ${shown(above2)}`);
  if (from !== void 0) words2.push(`${shown(from)} or more`);
  if (below !== void 0) words2.push(`below ${shown(below)}`);
  if (to !== void 0) words2.push(`at most ${shown(to)}`);
  return words2.join(' and ');
}

// packages/sim-core/src/scenario/schema/electrics.ts
// packages/sim-core/src/scenario/schema/fields.ts
import { z, z as z2 } from 'zod';

// packages/sim-core/src/scenario/wording.ts
var LONGEST_QUOTE2 = 60;
var quoted2 = (text2) => `\u201C${text2.length > LONGEST_QUOTE2 ? `${text2.slice(0, LONGEST_QUOTE2)}\u2026` : text2}\u201D`;
function alternatives(words2) {
  return words2.length < 2 ? (words2[0] ?? 'nothing') : `${words2.slice(0, -1).join(', ')} or ${words2.at(-1)}`;
}
function problem(kind, place, expected, found2, more = {}) {
  return {
    kind,
    place,
    expected,
    found: found2,
    ...(more.nearest === void 0 ? {} : { nearest: more.nearest }),
    ...(more.hint === void 0 ? {} : { hint: more.hint }),
  };
}
var inPath = (path, key) => (typeof key === 'number' ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`);

// packages/sim-core/src/scenario/schema/fields.ts
var FIELD_FACTS = z.registry();
var KINDS = {
  empty: 'missing-datum',
  'not-a-number': 'bad-number',
  'decimal-comma': 'bad-number',
  'thousands-separator': 'bad-number',
  'bare-number': 'bare-number',
  'unit-not-due': 'wrong-unit',
  'wrong-unit': 'wrong-unit',
  'wrong-dimension': 'wrong-dimension',
  ambiguous: 'wrong-unit',
  'two-quantities': 'bad-number',
  'bad-tolerance': 'bad-tolerance',
  'out-of-range': 'out-of-range',
  'not-whole': 'bad-number',
};
var asRefusal = ({ kind, expected, found: found2, nearest, hint }) => ({
  kind: KINDS[kind],
  expected,
  found: found2,
  nearest,
  hint,
});
var MEGA = /\d\s*M[a-zA-Z\u03a9\u2126]/;
var beyond = (text2, expected) => ({
  kind: 'out-of-range',
  expected,
  found: quoted2(text2),
  hint: MEGA.test(text2) ? 'M is mega, a million; m is milli, a thousandth' : void 0,
});
function refuse(context, input, refusal) {
  context.issues.push({ code: 'custom', input, params: { refusal } });
  return z.NEVER;
}
function field(facts, description, read) {
  const schema = z
    .string()
    .transform((text2, context) => {
      const result = read(text2);
      if (typeof result === 'object' && result !== null && 'refusal' in result) return refuse(context, text2, result.refusal);
      return result;
    })
    .meta({ description });
  FIELD_FACTS.add(schema, facts);
  return schema;
}
function quantity(dimension, description, example, bounds = {}) {
  return field({ form: 'quantity', dimension, example }, description, (text2) => {
    const read = readQuantity(text2, dimension);
    if (!read.ok) return { refusal: asRefusal(read) };
    if (!within(read.value, bounds)) {
      return { refusal: beyond(text2, expectedWithin(bounds, dimension, read.shownUnit)) };
    }
    return { dimension, value: read.value, spread: read.tolerance ?? NO_SPREAD };
  });
}
function entry(dimension, description, example, bounds = {}) {
  return field({ form: 'quantity', dimension, example }, description, (text2) => {
    const read = readQuantity(text2, dimension);
    if (!read.ok) return { refusal: asRefusal(read) };
    if (read.tolerance) {
      return {
        refusal: {
          kind: 'bad-tolerance',
          expected: 'a number without a tolerance in a table',
          found: quoted2(text2),
          hint: 'the table has one tolerance as a whole',
        },
      };
    }
    if (!within(read.value, bounds)) {
      return { refusal: beyond(text2, expectedWithin(bounds, dimension, read.shownUnit)) };
    }
    return read.value;
  });
}
function range(dimension, description, example, bounds = {}) {
  return field({ form: 'range', dimension, example }, description, (text2) => {
    const read = readRange(text2, dimension);
    if (!read.ok) return { refusal: asRefusal(read) };
    if (!within(read.from, bounds) || !within(read.to, bounds)) {
      return { refusal: beyond(text2, expectedWithin(bounds, dimension, read.shownUnit)) };
    }
    return { from: read.from, to: read.to };
  });
}
function count(description, example, bounds) {
  return field({ form: 'count', example }, description, (text2) => {
    const read = readNumber(text2, { whole: true });
    if (!read.ok) return { refusal: asRefusal(read) };
    const expected = `a whole number, ${boundsInWords(bounds, String)}`;
    return within(read.value, bounds) ? read.value : { refusal: { kind: 'out-of-range', expected, found: quoted2(text2) } };
  });
}
function words(description, example) {
  return field({ form: 'text', example }, description, (text2) =>
    text2.trim() === ''
      ? { refusal: { kind: 'missing-datum', expected: `${description}, such as ${example}`, found: 'nothing' } }
      : text2.trim(),
  );
}
var FLAGS = /* @__PURE__ */ new Map([
  ['yes', true],
  ['true', true],
  ['no', false],
  ['false', false],
]);
function flag(description) {
  return field({ form: 'flag', example: 'yes' }, description, (text2) => {
    const value2 = FLAGS.get(text2.toLowerCase());
    return value2 ?? { refusal: { kind: 'unknown-choice', expected: alternatives(['yes', 'no']), found: quoted2(text2) } };
  });
}
function choice(values, description) {
  return z.enum(values).meta({ description, examples: [values[0]] });
}
function section(shape, description) {
  return z
    .strictObject({ ...shape, source: words('where the numbers of this section are from', 'data sheet') })
    .partial()
    .meta({ description });
}
function group(shape, description) {
  return z.strictObject(shape).partial().meta({ description });
}
function rising(row, key, least, description) {
  return z
    .array(row)
    .superRefine((rows, context) => {
      if (rows.length < least) {
        const refusal = {
          kind: 'missing-datum',
          expected: `at least ${least} rows`,
          found: rows.length === 1 ? 'one row' : `${rows.length} rows`,
        };
        context.addIssue({ code: 'custom', params: { refusal } });
      }
      for (let index = 1; index < rows.length; index += 1) {
        const [before, here] = [rows[index - 1][key], rows[index][key]];
        if (!(here <= before)) continue;
        const refusal = {
          kind: 'out-of-range',
          expected: `rows in rising order of ${key}`,
          found: `one that is ${here === before ? 'the same as in' : 'below'} the row before`,
          hint: 'sort the rows',
        };
        context.addIssue({ code: 'custom', path: [index, key], params: { refusal } });
      }
    })
    .meta({ description });
}
function refusalIn(issue) {
  return issue.code === 'custom' ? issue.params?.['refusal'] : void 0;
}

// packages/sim-core/src/scenario/schema/electrics.ts
var thermal = group(
  {
    to_air: quantity('conductance', 'conductance to the air around', '0.4 W/K \xB1 30 %', POSITIVE),
    capacity: quantity('heatCapacity', 'heat capacity', '590 J/K', POSITIVE),
  },
  'heat data, where known; given data win over estimates',
);
var battery = section(
  {
    chemistry: choice(CHEMISTRIES, 'kind of the cells'),
    cells: z2
      .strictObject({
        series: count('cells in series', '4', { from: 1, to: 200 }),
        parallel: count('strings in parallel', '1', { from: 1, to: 200 }).optional(),
      })
      .meta({ description: 'how many cells, and how they are connected' }),
    capacity: quantity('charge', 'capacity of the pack, from its label', '6.2 Ah \xB1 8 %', POSITIVE),
    cell_resistance: quantity('resistance', 'ohmic resistance of one cell, as many chargers show it', '2.6 mohm \xB1 30 %', {
      above: 0,
      to: CONDUCTOR.to,
    }),
    polarisation: group(
      {
        resistance: quantity('resistance', 'slow part of the resistance of one cell', '2.0 mohm', CONDUCTOR),
        time: quantity('time', 'time in which the slow part settles', '30 s', POSITIVE),
      },
      'the slow part of the voltage drop, a resistor and a capacitor side by side',
    ),
    open_circuit: rising(
      z2.strictObject({
        charge: entry('fraction', 'charge of the cell', '50 %', SHARE),
        voltage: entry('voltage', 'voltage at rest of one cell', '3.8 V', POSITIVE),
      }),
      'charge',
      2,
      'open-circuit voltage of one cell over its charge, where measured',
    ),
    cell_cutoff: quantity('voltage', 'voltage of one cell at which the controller stops', '3.3 V', POSITIVE),
    discharge_rating: quantity('dischargeRate', 'continuous current as a multiple of the capacity, from the label', '45 C', POSITIVE),
    mass: quantity('mass', 'mass of the pack', '590 g', POSITIVE),
    thermal,
  },
  'the pack',
);
var wiring = section(
  {
    gauge: quantity('wireGauge', 'gauge or cross-section of the wire', '12 AWG', POSITIVE),
    length: quantity('length', 'length of the pair of wires, there and back counted once', '30 cm', NOT_NEGATIVE),
    connectors: count('pairs of plugs', '2', { from: 0, to: 20 }),
    resistance: quantity('resistance', 'resistance of wires and plugs together, instead of the estimate', '3 mohm', CONDUCTOR),
  },
  'wires and plugs between pack and controller',
);
var controller = section(
  {
    path_resistance: quantity('resistance', 'resistance of the switched path, two transistors in series', '3.0 mohm', CONDUCTOR),
    motor_current_limit: quantity('current', 'current to the motor at which the controller holds back', '60 A', POSITIVE),
    battery_current_limit: quantity('current', 'current from the pack at which the controller holds back', '60 A', POSITIVE),
    pwm_frequency: quantity('frequency', 'switching frequency', '16 kHz', POSITIVE),
    switching_time: quantity('time', 'rise and fall time of the switches together', '120 ns', NOT_NEGATIVE),
    voltage_loss: quantity('power', 'constant loss while driving', '0.5 W', NOT_NEGATIVE),
    idle_current: quantity('current', 'current the controller takes for itself', '70 mA', NOT_NEGATIVE),
    freewheeling: choice(['synchronous', 'diode'], 'what carries the current while the switch is off'),
    braking: choice(['none', 'regenerative'], 'whether the motor brakes into the pack'),
    mass: quantity('mass', 'mass of the controller', '65 g', POSITIVE),
    thermal,
  },
  'the speed controller',
);

// packages/sim-core/src/scenario/schema/motor.ts
import { z as z3 } from 'zod';

var noLoadRow = z3
  .strictObject({
    current: quantity('current', 'current without load', '0.70 A \xB1 20 %', POSITIVE),
    voltage: quantity('voltage', 'voltage at which it was measured', '12 V', POSITIVE),
  })
  .meta({ description: 'current without load and the voltage it was measured at' });
var conductance = (between, example) => quantity('conductance', `conductance ${between}`, example, POSITIVE);
var capacity = (of, example) => quantity('heatCapacity', `heat capacity of ${of}`, example, POSITIVE);
var motor = section(
  {
    layout: choice(['inrunner', 'outrunner'], 'whether the rotor turns inside or outside the winding'),
    kv: quantity('speedConstant', 'speed constant, from the data sheet', '610 rpm/V \xB1 4 %', POSITIVE),
    kv_measured: choice(['no-load', 'back-emf'], 'how it was found: from the no-load speed, or from the peak of the generated voltage'),
    resistance: quantity('resistance', 'resistance between two leads at 20 \xB0C', '65 mohm \xB1 15 %', WINDING),
    resistance_between: choice(['lines', 'phase-and-star'], 'whether the resistance is between two leads or of one phase'),
    no_load: z3.array(noLoadRow).meta({ description: 'no-load current at one or more voltages' }),
    poles: count('magnet poles, an even number', '14', { from: 2, to: 100 }),
    mass: quantity('mass', 'mass of the motor', '236 g', POSITIVE),
    can: group(
      {
        diameter: quantity('length', 'outer diameter', '39 mm', POSITIVE),
        length: quantity('length', 'length of the can without the shaft', '47 mm', POSITIVE),
      },
      'outer size',
    ),
    stack_length: quantity('length', 'length of the iron', '16 mm', POSITIVE),
    stator_diameter: quantity('length', 'outer diameter of the stator', '42 mm', POSITIVE),
    rotor_inertia: quantity('inertia', 'inertia of the rotor', '6e-6 kg*m2', NOT_NEGATIVE),
    magnet_grade: choice(MAGNET_GRADES, 'heat grade of the magnets, the letters after the number: N48SH is SH'),
    insulation_class: choice(INSULATION_CLASSES, 'thermal class of the winding insulation, IEC 60085'),
    thermal: group(
      {
        winding_to_stator: conductance('from winding to stator', '0.78 W/K \xB1 40 %'),
        stator_to_can: conductance('from stator to can', '2.0 W/K \xB1 40 %'),
        can_to_air: conductance('from can to air', '0.3 W/K \xB1 40 %'),
        winding_capacity: capacity('the winding', '15 J/K'),
        stator_capacity: capacity('the stator', '40 J/K'),
        can_capacity: capacity('the can with the magnets', '50 J/K'),
      },
      'heat data, where known; given data win over estimates',
    ),
    maker_limits: group(
      {
        current: quantity('current', 'largest current', '40 A', POSITIVE),
        voltage: quantity('voltage', 'largest voltage', '17 V', POSITIVE),
        input_power: quantity('power', 'largest input power', '620 W', POSITIVE),
        shaft_speed: quantity('angularSpeed', 'largest speed of the shaft', '40000 rpm', POSITIVE),
      },
      'what the maker permits',
    ),
  },
  'the motor',
);
var gearbox = section(
  {
    ratio: quantity('ratio', 'turns of the motor to one turn of the output', '5.2', POSITIVE),
    efficiency: quantity('fraction', 'share of the power that gets through', '95 %', SHARE_BUT_NONE),
    mass: quantity('mass', 'mass of the gearbox', '34 g', POSITIVE),
  },
  'gears between motor and load',
);

// packages/sim-core/src/scenario/schema/profile.ts
import { z as z4 } from 'zod';

var MOST_STEPS2 = 1e5;
var profileEntry = z4
  .strictObject({
    for: quantity('time', 'how long', '45 s', POSITIVE),
    label: words('a name for the step', 'sprint turn'),
    throttle: range('fraction', 'throttle to hold; 0 % is off', '60 to 100 %', SHARE),
    vehicle_speed: range('speed', 'speed to hold; beside another hold, the speed that is imposed', '4 to 14 m/s', NOT_NEGATIVE),
    shaft_speed: range('angularSpeed', 'speed of propeller or wheel to hold', '6000 rpm', NOT_NEGATIVE),
    battery_power: range('power', 'power from the pack to hold', '150 W', NOT_NEGATIVE),
    motor_current: range('current', 'current to the motor to hold', '20 A', NOT_NEGATIVE),
    thrust: range('force', 'thrust to hold', '12 N', NOT_NEGATIVE),
    climb: range('speed', 'vertical speed, with a held vehicle speed', '3.2 m/s'),
    grade: range('fraction', 'slope of the ground, rise over distance along it', '5 %', { above: -1, below: 1 }),
    repeat: count('how often the steps below are done', '8', { from: 1, to: MOST_STEPS2 }),
    get steps() {
      return z4.array(profileEntry);
    },
  })
  .partial()
  .meta({ description: 'a step that holds one thing, or a repeat of steps' });
var profile = z4.array(profileEntry).meta({ description: 'what is driven, step by step' });

// packages/sim-core/src/scenario/schema/propeller.ts
import { z as z5 } from 'zod';

// packages/sim-core/src/scenario/schema/surroundings.ts
var AIR = { from: fromUnit(-60, '\xB0C'), to: fromUnit(80, '\xB0C') };
var WATER = { from: fromUnit(0, '\xB0C'), to: fromUnit(60, '\xB0C') };
var BODY = { from: fromUnit(-60, '\xB0C'), to: fromUnit(150, '\xB0C') };
var ALTITUDE = { from: -500, to: 11e3 };
var ambient = section(
  {
    air: quantity('temperature', 'temperature of the air outside', '24 \xB0C', AIR),
    altitude: quantity('length', 'height above sea level; sets the density of the air', '310 m', ALTITUDE),
    pressure: quantity('pressure', 'air pressure on the spot (not reduced to sea level), instead of the altitude', '977 hPa', {
      from: 1e4,
      to: 12e4,
    }),
    water: quantity('temperature', 'temperature of the water', '14 \xB0C', WATER),
    water_kind: choice(['fresh', 'sea'], 'fresh or sea water'),
    compartment: quantity(
      'temperature',
      'temperature of the air round controller and pack, where it differs from outside',
      '36 \xB0C',
      AIR,
    ),
  },
  'the surroundings',
);
var start = section(
  {
    charge: quantity('fraction', 'charge of the pack at the start', '100 %', SHARE),
    temperature: quantity('temperature', 'temperature of all parts at the start', '24 \xB0C', BODY),
    battery_temperature: quantity('temperature', 'temperature of the cells at the start, where it differs', '30 \xB0C', BODY),
  },
  'the state at the start of the run',
);
var space = section(
  {
    diameter: quantity('length', 'largest diameter a motor may have', '42 mm', POSITIVE),
    length: quantity('length', 'largest length a motor may have', '80 mm', POSITIVE),
    mass: quantity('mass', 'largest mass a motor may have', '320 g', POSITIVE),
  },
  'the room there is for a motor',
);

// packages/sim-core/src/scenario/schema/propeller.ts
var basics = {
  diameter: quantity('length', 'diameter', '9 in', POSITIVE),
  blades: count('number of blades', '2', { from: 1, to: 12 }),
  wake_fraction: quantity('fraction', 'share by which the water at the screw is slower than the boat', '0.08', { from: -0.5, below: 1 }),
  thrust_deduction: quantity('fraction', 'share of the thrust lost to suction on the hull', '0.06', { from: -0.5, below: 1 }),
  shaft_efficiency: quantity('fraction', 'share of the power that passes stern tube and bearings', '92 %', SHARE_BUT_NONE),
  inertia: quantity('inertia', 'inertia about the shaft', '2e-5 kg*m2', NOT_NEGATIVE),
  folding: flag('whether the blades fold when it stops'),
  medium: choice(['air', 'water'], 'what it turns in'),
  source: words('where the numbers of this section are from', 'data sheet'),
};
var optional = z5.strictObject(basics).partial();
var coefficients = optional
  .extend({
    kind: z5.literal('coefficients'),
    table: rising(
      z5.strictObject({
        advance_ratio: entry('ratio', 'speed over turns a second times diameter', '0.4', NOT_NEGATIVE),
        thrust: entry('ratio', 'thrust coefficient: thrust over density times n\xB2\xB7D\u2074', '0.08'),
        power: entry('ratio', 'power coefficient: power over density times n\xB3\xB7D\u2075', '0.045'),
      }),
      'advance_ratio',
      1,
      'measured coefficients over advance ratio, n in turns a second',
    ),
    thrust_factor: quantity('ratio', 'factor on all thrust of the table; carries its tolerance', '1 \xB1 5 %', POSITIVE).optional(),
    power_factor: quantity('ratio', 'factor on all power of the table; carries its tolerance', '1 \xB1 5 %', POSITIVE).optional(),
  })
  .meta({ description: 'a propeller known by its coefficients' });
var point = z5.strictObject({
  shaft_speed: quantity('angularSpeed', 'speed of the propeller', '9000 rpm', POSITIVE),
  thrust: quantity('force', 'thrust', '12 N', POSITIVE).optional(),
  torque: quantity('torque', 'torque into the propeller', '150 mN\xB7m', POSITIVE).optional(),
  shaft_power: quantity('power', 'power into the propeller', '140 W', POSITIVE).optional(),
  battery_current: quantity('current', 'current from the pack', '15 A', POSITIVE).optional(),
  voltage: quantity('voltage', 'voltage at the controller', '11.1 V', POSITIVE).optional(),
  vehicle_speed: quantity('speed', 'speed through the air or water; at rest where it is not said', '0 m/s', NOT_NEGATIVE).optional(),
});
var measuredPoints = optional
  .extend({
    kind: z5.literal('measured-points'),
    points: z5.array(point).min(1).meta({ description: 'measurements, one row each' }),
    measured_at: group(
      {
        air: quantity('temperature', 'temperature of the air', '20 \xB0C'),
        altitude: quantity('length', 'height above sea level', '100 m', ALTITUDE),
      },
      'where it was measured, if not where it is driven',
    ).optional(),
  })
  .meta({ description: 'a propeller known by measurements at some speeds' });
var bladeElement = optional
  .extend({
    kind: z5.literal('blade-element'),
    family: choice(['thin-electric', 'slow-flyer', 'sport', 'folding'], 'form of the blades').optional(),
    pitch: quantity('length', 'pitch', '4.5 in', POSITIVE).optional(),
    stations: rising(
      z5.strictObject({
        radius: entry('ratio', 'radius over the tip radius', '0.75', { above: 0, to: 1 }),
        chord: entry('ratio', 'chord over the tip radius', '0.17', POSITIVE),
        twist: entry('angle', 'angle between chord and disc', '16\xB0', { above: -Math.PI / 2, below: Math.PI / 2 }),
      }),
      'radius',
      3,
      'measured blade, from hub to tip',
    ).optional(),
  })
  .meta({ description: 'an air propeller calculated from its shape' });
var marineSeries = optional
  .extend({
    kind: z5.literal('marine-series'),
    blades: count('number of blades', '3', { from: 2, to: 7 }).optional(),
    pitch_ratio: quantity('ratio', 'pitch over diameter', '1.15', { from: 0.5, to: 1.4 }).optional(),
    pitch: quantity('length', 'pitch, instead of the pitch ratio', '60 mm', POSITIVE).optional(),
    area_ratio: quantity('ratio', 'area of the blades over that of the disc', '0.60', { from: 0.3, to: 1.05 }).optional(),
  })
  .meta({ description: 'a screw of the Wageningen B series' });
var PROPELLERS = [coefficients, measuredPoints, bladeElement, marineSeries];
var propeller = z5.discriminatedUnion('kind', PROPELLERS).meta({ description: 'the propeller or screw' });

// packages/sim-core/src/scenario/schema/vehicle.ts
import { z as z6 } from 'zod';

var wheel = section(
  {
    radius: quantity('length', 'rolling radius', '43 mm', POSITIVE),
    rolling_resistance: quantity('ratio', 'rolling resistance over weight', '0.085', NOT_NEGATIVE),
    drag_area: quantity('area', 'drag coefficient times frontal area', '0.042 m2', NOT_NEGATIVE),
    grip: quantity('ratio', 'friction between tyre and ground', '0.9', POSITIVE),
    inertia: quantity('inertia', 'inertia of all wheels together', '2.4e-4 kg*m2', NOT_NEGATIVE),
  },
  'the driven wheels',
);
var vehicle = section(
  {
    mass: quantity('mass', 'mass without motor, gearbox and pack', '10.2 kg', POSITIVE),
    added_mass: quantity('fraction', 'share of the mass that moving water adds', '8 %', { from: 0, to: 2 }),
    drag: rising(
      z6.strictObject({
        speed: entry('speed', 'speed', '3 m/s', NOT_NEGATIVE),
        force: entry('force', 'drag at this speed', '20 N', NOT_NEGATIVE),
      }),
      'speed',
      1,
      'drag at some speeds, measured by towing or coasting',
    ),
    drag_factor: quantity('ratio', 'factor on all drag; carries its tolerance', '1 \xB1 10 %', POSITIVE),
    drag_area: quantity('area', 'drag coefficient times frontal area', '0.02 m2', NOT_NEGATIVE),
    wing: group(
      {
        area: quantity('area', 'area of the wing', '0.60 m2', POSITIVE),
        aspect_ratio: quantity('ratio', 'span squared over area', '17', POSITIVE),
        span_efficiency: quantity('ratio', 'how close the lift is to elliptic', '0.85', { above: 0, to: 1.2 }),
        zero_lift_drag: quantity('ratio', 'drag coefficient of the whole aircraft without lift', '0.019', POSITIVE),
        most_lift: quantity('ratio', 'largest lift coefficient', '1.2', POSITIVE),
      },
      'a wing that carries it',
    ),
  },
  'hull, airframe or car',
);
var cooling = section(
  {
    water_jacket: section(
      {
        conductance: quantity('conductance', 'conductance from what it covers to the water', '1.8 W/K \xB1 25 %', POSITIVE),
        at_speed: quantity('speed', 'speed of the boat at which it has this conductance', '3 m/s', POSITIVE),
        rest_share: quantity('fraction', 'share of it that remains at rest', '12 %', SHARE),
        covers: choice(['can', 'mount'], 'what the water cools'),
      },
      'a water jacket fed by a scoop',
    ),
    mount: group(
      { conductance: quantity('conductance', 'conductance from motor to mount', '0.30 W/K \xB1 30 %', POSITIVE) },
      'heat that the mount takes',
    ),
    air: group(
      {
        speed: quantity('speed', 'speed of the air round the motor', '5 m/s', NOT_NEGATIVE),
        share_of_vehicle_speed: quantity('fraction', 'air speed round the motor as a share of the vehicle speed', '30 %', {
          from: 0,
          to: 2,
        }),
        share_of_slipstream: quantity('fraction', 'air speed round the motor as a share of the slipstream', '50 %', { from: 0, to: 2 }),
        openness: quantity('fraction', 'how freely air gets to the motor', '70 %', SHARE),
      },
      'air that cools the motor',
    ),
  },
  'what takes the heat away',
);
var LIMIT = { from: fromUnit(0, '\xB0C'), to: fromUnit(400, '\xB0C') };
var temperature2 = (of, example) => quantity('temperature', `largest temperature of ${of}`, example, LIMIT);
var limits = section(
  {
    winding: temperature2('the winding', '130 \xB0C'),
    magnets: temperature2('the magnets', '100 \xB0C'),
    controller: temperature2('the controller', '95 \xB0C'),
    cells: temperature2('the cells', '60 \xB0C'),
    reserve: quantity('fraction', 'charge that must be left at the end', '20 %', SHARE),
    battery_power: quantity('power', 'largest power from the pack', '500 W', POSITIVE),
    energy: quantity('energy', 'largest energy from the pack', '50 Wh', POSITIVE),
    run_time: quantity('time', 'time it must run at least', '10 min', POSITIVE),
  },
  'what must not be passed',
);

// packages/sim-core/src/scenario/schema/drive.ts
var sections = {
  ambient,
  battery,
  start,
  wiring,
  controller,
  motor,
  gearbox,
  propeller,
  wheel,
  vehicle,
  cooling,
  limits,
  space,
  other_loads: quantity('power', 'power the pack gives to everything but the drive', '10 W', NOT_NEGATIVE),
  drives: count('equal drives on one pack', '2', { from: 1, to: 64 }),
};
var drive = z7.strictObject(sections).partial();
var SECTION_NAMES = Object.keys(sections);
var PART_KINDS = ['battery', 'wiring', 'controller', 'motor', 'gearbox', 'propeller', 'wheel', 'vehicle', 'cooling'];
var PARTS = { battery, wiring, controller, motor, gearbox, propeller, wheel, vehicle, cooling };
var head = z7.strictObject({
  title: words('a line that says what this is about', 'Lake survey boat'),
  notes: words('anything else', 'Invented example.').optional(),
  objective: choice(OBJECTIVES, 'what ranks candidates that meet every limit').optional(),
  profile: profile.optional(),
});
var candidateName = z7.strictObject({ name: words('the name of this candidate', 'Wide') });

// packages/sim-core/src/scenario/json-schema.ts
var _anyPropeller = z8
  .strictObject({
    ...Object.assign({}, ...PROPELLERS.map(({ shape }) => shape)),
    kind: z8.enum(PROPELLERS.map(({ shape }) => shape.kind.value)).meta({ description: 'how the propeller is known' }),
  })
  .partial()
  .meta({ description: 'the propeller or screw' });

// packages/sim-core/src/scenario/located-tree.ts
var childOf = (node, key) => (node?.kind === 'map' ? node.entries.get(key)?.value : void 0);
var textOf = (node) => (node?.kind === 'text' ? node.text : void 0);
function withEntries(map, entries) {
  return { ...map, entries: new Map(entries) };
}
function without(map, ...keys) {
  return withEntries(
    map,
    [...map.entries].filter(([key]) => !keys.includes(key)),
  );
}
function toPlain(node) {
  if (node.kind === 'text') return node.text;
  if (node.kind === 'list') return node.items.map(toPlain);
  const plain = /* @__PURE__ */ Object.create(null);
  for (const [key, { value: value2 }] of node.entries) plain[key] = toPlain(value2);
  return plain;
}
function withSources(node, inherited) {
  if (node.kind === 'list') return { ...node, items: node.items.map((item) => withSources(item, inherited)) };
  if (node.kind === 'text') return inherited === void 0 ? node : { ...node, source: inherited };
  const source = textOf(childOf(node, 'source')) ?? inherited;
  return withEntries(
    node,
    [...node.entries].map(([key, entry2]) => [key, { ...entry2, value: withSources(entry2.value, source) }]),
  );
}

// packages/sim-core/src/scenario/drive-checks.ts
var WHERE_TO_FIND = {
  battery: 'chemistry, cells and capacity stand on the label of the pack',
  motor: 'layout, kv, resistance, no-load current, mass and size stand on its data sheet',
};
function checkDrive(drive2) {
  const problems = [];
  const has = (key) => drive2.entries.has(key);
  const missing = (key) => ({ ...drive2.place, path: inPath(drive2.place.path, key) });
  for (const key of ['battery', 'motor']) {
    if (!has(key))
      problems.push(
        problem('missing-datum', missing(key), `a ${key}, for this candidate or for all`, 'nothing', { hint: WHERE_TO_FIND[key] }),
      );
  }
  if (!has('propeller') && !has('wheel')) {
    const hint = 'write propeller: { kind: \u2026, \u2026 } or wheel: { radius: \u2026 }';
    problems.push(problem('missing-datum', missing('propeller'), 'a propeller or a wheel', 'neither', { hint }));
  }
  if (has('propeller') && has('wheel')) {
    const hint = 'a candidate removes what all have in common by propeller: none or wheel: none';
    problems.push(problem('conflict', drive2.entries.get('wheel').keyPlace, 'a propeller or a wheel', 'both', { hint }));
  }
  const propeller2 = childOf(drive2, 'propeller');
  const ratio = childOf(propeller2, 'pitch_ratio');
  if (ratio && childOf(propeller2, 'pitch'))
    problems.push(problem('conflict', ratio.place, 'pitch or pitch_ratio', 'both', { hint: 'keep the one you measured' }));
  const poles = childOf(childOf(drive2, 'motor'), 'poles');
  if (Number(textOf(poles)) % 2 === 1) {
    problems.push(
      problem('out-of-range', poles.place, 'an even number of magnet poles', textOf(poles), {
        hint: 'magnets are counted, not pole pairs or stator teeth',
      }),
    );
  }
  return problems;
}

// packages/sim-core/src/scenario/given.ts
var camel = (key) => key.replace(/_(.)/g, (_, letter) => letter.toUpperCase());
var isReading = (value2) => 'dimension' in value2 && 'spread' in value2;
function given(value2, node) {
  return convert(value2, node);
}
function convert(value2, node) {
  if (typeof value2 !== 'object' || value2 === null) return value2;
  if (isReading(value2)) {
    const source = node.kind === 'text' ? node.source : void 0;
    return givenDatum(value2.dimension, value2.value, value2.spread, node.place, source);
  }
  if (Array.isArray(value2)) return node.kind === 'list' ? value2.map((item, index) => convert(item, node.items[index])) : value2;
  if (node.kind !== 'map') return value2;
  const fields = Object.entries(value2).map(([key, inner]) => [camel(key), convert(inner, node.entries.get(key).value)]);
  return { ...Object.fromEntries(fields), place: node.place };
}

// packages/sim-core/src/scenario/merge.ts
var NONE = 'none';
var isNone = (node) => textOf(node) === NONE;
function mergeMaps(below, above2) {
  if (above2.used && below.used?.file !== above2.used.file) return withoutNone(above2);
  if (above2.used && below.used) return { ...mergeMaps(below, above2.used.beside), used: below.used };
  const [kindBelow, kindAbove] = [textOf(childOf(below, 'kind')), textOf(childOf(above2, 'kind'))];
  if (kindAbove !== void 0 && kindBelow !== void 0 && kindAbove !== kindBelow) return withoutNone(above2);
  const merged = new Map(below.entries);
  for (const [key, entry2] of above2.entries) {
    const under = merged.get(key)?.value;
    if (isNone(entry2.value)) merged.delete(key);
    else if (under?.kind === 'map' && entry2.value.kind === 'map') merged.set(key, { ...entry2, value: mergeMaps(under, entry2.value) });
    else merged.set(key, entry2.value.kind === 'map' ? { ...entry2, value: withoutNone(entry2.value) } : entry2);
  }
  return { ...withEntries(above2, merged), ...(below.used ? { used: below.used } : {}) };
}
function withoutNone(map) {
  const kept = [...map.entries]
    .filter(([, { value: value2 }]) => !isNone(value2))
    .map(([key, entry2]) => [key, entry2.value.kind === 'map' ? { ...entry2, value: withoutNone(entry2.value) } : entry2]);
  return { ...withEntries(map, kept), ...(map.used ? { used: map.used } : {}) };
}

// packages/sim-core/src/scenario/located-document.ts
// packages/sim-core/src/scenario/build-tree.ts
import { Composer, isAlias, isMap, isScalar, isScalar as isScalar2, isSeq, LineCounter, Parser, Scalar } from 'yaml';

// packages/sim-core/src/scenario/text-checks.ts
var LARGEST_TEXT = 1e6;
var REPLACED = /\ufffd/g;
var SAVED_TWICE = /\u00c2[\u00b0\u00b1\u00b5\u00a0]|\u00ce[\u00a9\u00bc]|\u00e2\u201e\u00a6/;
var CONTROLS = /(?![\t\n\v\f\r])\p{Cc}(?<![\u007f-\u009f])/u;
var withoutByteOrderMark = (text2) => text2.replace(/^\ufeff/, '');
function placeAt(file, text2, offset, path = '') {
  const before = text2.slice(0, offset);
  const lineStart = before.lastIndexOf('\n') + 1;
  return { file, line: before.split('\n').length, column: offset - lineStart + 1, path };
}
function checkText(file, text2) {
  const start2 = { file, line: 1, column: 1, path: '' };
  if (text2.length > LARGEST_TEXT) {
    return [problem('too-large', start2, 'a text of at most 1 MB', `${(text2.length / LARGEST_TEXT).toFixed(1)} MB`)];
  }
  const at2 = (index) => placeAt(file, text2, index);
  const replaced = [...text2.matchAll(REPLACED)];
  if (replaced.length > 0) {
    return [
      problem('unreadable-text', at2(replaced[0].index), 'text in UTF-8', `${count2(replaced.length, 'character')} in another encoding`, {
        hint: 'the file was probably saved as Latin-1 or Windows-1252: save it as UTF-8, or write degC, ohm and +/- in plain letters',
      }),
    ];
  }
  const twice = SAVED_TWICE.exec(text2);
  if (twice) {
    return [
      problem('unreadable-text', at2(twice.index), 'text in UTF-8', `${quoted2(twice[0])}, UTF-8 that was once read as Latin-1`, {
        hint: 'replace it by the sign that was meant (\xB0, \xB1, \xB5, \u03A9) and save as UTF-8',
      }),
    ];
  }
  const control = CONTROLS.exec(text2);
  if (control) {
    const code = `U+${control[0].charCodeAt(0).toString(16).padStart(4, '0').toUpperCase()}`;
    return [
      problem('unreadable-text', at2(control.index), 'text in UTF-8', `the control character ${code}`, {
        hint: 'this may be UTF-16 or no text at all: save it as UTF-8',
      }),
    ];
  }
  return [];
}
var count2 = (n, noun) => `${n} ${noun}${n === 1 ? '' : 's'}`;

// packages/sim-core/src/scenario/yaml-complaints.ts
var QUOTE_IT = 'put texts with signs in quotation marks: "\u2026"';
var INDENT = 'lines of one section begin in the same column, indented by blanks more than its name';
var COMPLAINTS = {
  TAB_AS_INDENT: { expected: 'blanks at the beginning of a line', found: 'a tab', hint: 'indent with blanks' },
  BAD_INDENT: { expected: 'lines indented alike, and every bracket closed', hint: INDENT },
  BLOCK_AS_IMPLICIT_KEY: {
    expected: 'one colon with a blank to a line',
    found: 'a second key on the same line',
    hint: 'put a text with a colon in quotation marks, or begin a new line',
  },
  BLOCK_IN_FLOW: { expected: 'the closing bracket before the next section', hint: 'close the { or [ of the line above' },
  DUPLICATE_KEY: { expected: 'each key once', hint: 'keep one of the two lines' },
  MULTILINE_IMPLICIT_KEY: { expected: 'a key, a colon, a blank and a value on each line', hint: 'look at this line and the one above' },
  MISSING_CHAR: { expected: 'a closing quotation mark, or a colon and a value', hint: 'look at this line and the one above' },
  BAD_SCALAR_START: { expected: 'a text that begins with a letter or digit', found: 'a sign with a meaning in YAML', hint: QUOTE_IT },
  BAD_DQ_ESCAPE: { expected: 'text', found: 'a backslash that means nothing', hint: "write \\\\ for one backslash, or use '\u2026'" },
  UNEXPECTED_TOKEN: { expected: 'a key, a colon, a blank and a value', found: 'something after the end of a value', hint: QUOTE_IT },
  BAD_ALIAS: { expected: 'the name of an anchor after *', hint: QUOTE_IT },
  MULTIPLE_DOCS: { expected: 'one document in a file', found: 'a line --- that begins another', hint: 'take out the second ---' },
  TAG_RESOLVE_FAILED: { expected: 'a value without a tag', found: 'a tag, written with !', hint: QUOTE_IT },
  KEY_OVER_1024_CHARS: { expected: 'a short key', found: 'more than 1024 characters before a colon' },
};
var NO_BREAK = '[\\u00a0\\u2007\\u202f]';
var INDENTED_BY_TAB = /^ *\t/;
var NO_BREAK_BLANK = new RegExp(`^(?:\\s|${NO_BREAK})*${NO_BREAK}\\S|^\\s*(?:- )*[\\w]+:${NO_BREAK}`);
var NO_BLANK = /^\s*(?:- )*([a-z][a-z_]*):([^\s/].*)$/;
var MISSING_BLANK = 'a blank after the colon';
var NO_BREAK_SPACE = {
  expected: 'plain blanks in the indentation and after a colon',
  found: 'a no-break space',
  hint: 'it looks like a blank and came with copied text: type the blank again',
};
function explainComplaint(file, text2, error) {
  const place = placeAt(file, text2, error.pos[0]);
  const lines = text2.split(/\r?\n/);
  for (const line of [place.line, place.line - 1, place.line + 1]) {
    const content = lines[line - 1] ?? '';
    const at2 = (column) => ({ file, line, column, path: '' });
    if (INDENTED_BY_TAB.test(content)) {
      return problem('broken-yaml', at2(content.indexOf('	') + 1), 'blanks at the beginning of a line', 'a tab', {
        hint: 'indent with blanks',
      });
    }
    if (NO_BREAK_BLANK.test(content)) {
      const { expected: expected2, found: found3, hint: hint2 } = NO_BREAK_SPACE;
      return problem('broken-yaml', at2(content.search(new RegExp(NO_BREAK)) + 1), expected2, found3, { hint: hint2 });
    }
    const joined2 = error.code === 'MULTILINE_IMPLICIT_KEY' || error.code === 'MISSING_CHAR' ? NO_BLANK.exec(content) : null;
    if (joined2) {
      return problem('broken-yaml', at2(content.indexOf(':') + 1), MISSING_BLANK, quoted2(content.trim()), {
        nearest: `${joined2[1]}: ${joined2[2]}`,
      });
    }
  }
  const { kind = 'broken-yaml', expected, found: found2, hint } = COMPLAINTS[error.code] ?? { expected: 'YAML', hint: QUOTE_IT };
  return problem(kind, place, expected, found2 ?? lineOrEnd(lines[place.line - 1]), { hint });
}
var lineOrEnd = (line = '') => (line.trim() === '' ? 'the end of the section' : quoted2(line.trim()));

// packages/sim-core/src/scenario/build-tree.ts
var MOST_ALIASED = 1e4;
var FREE_TEXT = ['title', 'notes', 'name', 'label', 'source'];
var WITHOUT_BLANK = /^([a-z][a-z_]*):([^\s/].*)$/s;
var NO_BREAK2 = /^[\u00a0\u2007\u202f]|^\w+:[\u00a0\u2007\u202f]/;
function buildTree(file, text2, document, lines) {
  const problems = [];
  const anchors = /* @__PURE__ */ new Map();
  const open = /* @__PURE__ */ new Set();
  let insideAliases = 0;
  let aliased = 0;
  const at2 = (offset, path) => {
    const { line, col } = lines.linePos(offset);
    return { file, line, column: col, path };
  };
  let misled = false;
  const object = (...args) => {
    problems.push(problem(...args));
  };
  const offsetOf = (node) => node?.range?.[0] ?? 0;
  function read(node, path, place) {
    if (isAlias(node)) return readAlias(node.source, path, at2(offsetOf(node), path));
    if (insideAliases > 0 && ++aliased > MOST_ALIASED) return void 0;
    if ((isMap(node) || isSeq(node) || isScalar(node)) && node.anchor !== void 0) anchors.set(node.anchor, node);
    if (isScalar(node)) return { kind: 'text', place: at2(offsetOf(node), path), text: contentOf(node) };
    open.add(node);
    const inner = isMap(node) ? readMap(node, path, place) : isSeq(node) ? readList(node.items, path, place) : void 0;
    open.delete(node);
    return inner;
  }
  function readAlias(name, path, place) {
    const target = anchors.get(name);
    if (target === void 0 || open.has(target)) {
      if (target) object('broken-yaml', place, 'an anchor that is complete', `${quoted2(`*${name}`)}, which contains itself`);
      else
        object('broken-yaml', place, 'the name of an anchor that stands above', quoted2(`*${name}`), {
          hint: 'put a text with * in quotation marks',
        });
      return { kind: 'text', place, text: `*${name}` };
    }
    const before = aliased;
    insideAliases += 1;
    const inner = read(target, path, place);
    insideAliases -= 1;
    if (aliased > MOST_ALIASED && before <= MOST_ALIASED && insideAliases === 0) {
      object('too-large', place, `aliases that repeat at most ${MOST_ALIASED} values`, 'more');
    }
    return inner;
  }
  function readList(items, path, place) {
    const read_ = items.map((item, index) => {
      const here = inPath(path, index);
      return read(item, here, at2(offsetOf(item), here));
    });
    return { kind: 'list', place, items: read_.filter((item) => item !== void 0) };
  }
  function readMap(map, path, place) {
    const entries = /* @__PURE__ */ new Map();
    let last;
    for (const pair of map.items) {
      if (!isScalar(pair.key)) {
        object('broken-yaml', at2(offsetOf(pair.key), path), 'a word before the colon', 'a list or map as a key', {
          hint: 'put texts with brackets in quotation marks',
        });
        continue;
      }
      const written = contentOf(pair.key);
      const keyOffset = offsetOf(pair.key);
      if (pair.value === null && map.flow && last && pair.key.type === Scalar.PLAIN && !WITHOUT_BLANK.test(written)) {
        objectToComma(last, pair.key, path);
        continue;
      }
      const joined2 = pair.value === null || contentOf(pair.value) === '' ? WITHOUT_BLANK.exec(written) : null;
      const withNoBreak = NO_BREAK2.test(written) && pair.key.type === Scalar.PLAIN;
      const key = joined2 ? joined2[1] : withNoBreak ? written.trim().replace(/:.*/s, '') : written;
      const here = inPath(path, key);
      const keyPlace = at2(keyOffset, here);
      if (withNoBreak) {
        misled ||= !/^\w/.test(written);
        object('broken-yaml', keyPlace, NO_BREAK_SPACE.expected, NO_BREAK_SPACE.found, { hint: NO_BREAK_SPACE.hint });
        continue;
      }
      if (joined2) {
        object('broken-yaml', at2(keyOffset, here), MISSING_BLANK, quoted2(written), { nearest: `${joined2[1]}: ${joined2[2]}` });
        entries.set(key, { keyPlace, value: { kind: 'text', place: keyPlace, text: joined2[2] } });
        continue;
      }
      if (pair.value === null) {
        object('broken-yaml', keyPlace, 'a colon and a value after the key', quoted2(written));
        continue;
      }
      const value2 = read(pair.value, here, keyPlace);
      if (value2 === void 0 || entries.has(key)) continue;
      entries.set(key, { keyPlace, value: FREE_TEXT.includes(key) ? checkedForCut(value2, pair.value) : value2 });
      last = isScalar(pair.value) && pair.value.type === Scalar.PLAIN ? { key, value: pair.value } : void 0;
    }
    return { kind: 'map', place, entries };
  }
  function objectToComma(last, rest, path) {
    const value2 = contentOf(last.value);
    const place = at2(offsetOf(last.value), inPath(path, last.key));
    const tail = contentOf(rest);
    const between = text2.slice(last.value.range?.[1] ?? 0, offsetOf(rest));
    const whole = `${value2}${between}${tail}`;
    if (/\d$/.test(value2) && /^\d/.test(tail) && between === ',') {
      object('bad-number', place, 'a point before decimals', quoted2(whole), {
        nearest: `${value2}.${tail}`,
        hint: 'a comma inside { } begins the next key',
      });
    } else {
      object('broken-yaml', place, 'texts with a comma in quotation marks inside { }', quoted2(whole), {
        nearest: `${last.key}: "${whole}"`,
      });
    }
  }
  function checkedForCut(value2, node) {
    if (value2.kind !== 'text' || !isScalar(node) || node.type !== Scalar.PLAIN) return value2;
    const cut = /^[ \t]+(#\S.*)/.exec(text2.slice(node.range?.[1] ?? text2.length));
    if (cut === null) return value2;
    const whole = `${value2.text} ${cut[1].trim()}`;
    object(
      'broken-yaml',
      value2.place,
      'texts with a # in quotation marks',
      `${quoted2(value2.text)}, cut off before ${quoted2(cut[1].trim())}`,
      {
        nearest: `"${whole}"`,
        hint: 'if a comment was meant, leave a blank after the #',
      },
    );
    return value2;
  }
  const root = document.contents === null ? void 0 : read(document.contents, '', at2(offsetOf(document.contents), ''));
  return { root: misled ? void 0 : root, problems };
}
function contentOf(node) {
  if (!isScalar(node)) return node === null ? '' : '\uFFFD';
  return typeof node.value === 'string' ? node.value : (node.source ?? '');
}

// packages/sim-core/src/scenario/nesting.ts
import { Lexer } from 'yaml';

var DEEPEST_NESTING = 32;
function nestsTooDeepOnLexing(text2) {
  let brackets = 0;
  let marksOnLine = 0;
  for (const lexeme of new Lexer().lex(text2)) {
    if (lexeme === '[' || lexeme === '{') brackets += 1;
    else if (lexeme === ']' || lexeme === '}') brackets = Math.max(0, brackets - 1);
    else if (lexeme === '-' || lexeme === '?') marksOnLine += 1;
    else if (lexeme === '\n' || lexeme === '\r\n') marksOnLine = 0;
    if (brackets > DEEPEST_NESTING || marksOnLine > DEEPEST_NESTING) return true;
  }
  return false;
}
function tooDeepAt(tokens) {
  const waiting = tokens.map((token) => ({ token, depth: 0 }));
  for (let next = waiting.pop(); next !== void 0; next = waiting.pop()) {
    const { token, depth } = next;
    if (token.type === 'document') {
      if (token.value) waiting.push({ token: token.value, depth });
    } else if ('items' in token) {
      if (depth + 1 > DEEPEST_NESTING) return token.offset;
      for (const item of token.items) {
        for (const inner of [item.key, item.value]) if (inner) waiting.push({ token: inner, depth: depth + 1 });
      }
    }
  }
  return void 0;
}

// packages/sim-core/src/scenario/located-document.ts
var WITHOUT_BLANK2 = /^[a-z][a-z_]*:[^\s/]/;
function readDocument(file, written) {
  const unreadable = checkText(file, written);
  if (unreadable.length > 0) return { problems: unreadable };
  const text2 = withoutByteOrderMark(written);
  const start2 = { file, line: 1, column: 1, path: '' };
  const tooDeep = (place) =>
    problem('too-deep', place, `lists and maps nested at most ${DEEPEST_NESTING} deep`, 'a deeper nesting', {
      hint: 'look for brackets left open, or lines indented further and further',
    });
  if (nestsTooDeepOnLexing(text2)) return { problems: [tooDeep(start2)] };
  const lines = new LineCounter();
  const tokens = [...new Parser(lines.addNewLine).parse(text2)];
  const deep = tooDeepAt(tokens);
  if (deep !== void 0) return { problems: [tooDeep(placeAt(file, text2, deep))] };
  const documents = [...new Composer({ schema: 'failsafe', prettyErrors: false }).compose(tokens, true, text2.length)];
  const document = documents[0];
  const second = documents[1];
  const complaints = [...document.errors, ...document.warnings];
  const fatal = complaints.find(({ code }) => code !== 'DUPLICATE_KEY');
  const doubled = complaints.filter(({ code }) => code === 'DUPLICATE_KEY');
  const problems = [...doubled, ...(fatal ? [fatal] : [])].map((error) => explainComplaint(file, text2, error));
  if (fatal) return { problems };
  if (second) {
    const at2 = placeAt(file, text2, second.range[0]);
    return {
      problems: [
        ...problems,
        problem('broken-yaml', at2, 'one document in a file', 'a line --- that begins another', { hint: 'take out the second ---' }),
      ],
    };
  }
  if (document.contents === null || (isScalar2(document.contents) && document.contents.source === '')) {
    return {
      problems: [
        problem('nothing-to-do', start2, 'a scenario', 'an empty file', { hint: '\u201Cshaftwork init\u201D writes one to start from' }),
      ],
    };
  }
  const tree = buildTree(file, text2, document, lines);
  const bomb = tree.problems.find(({ kind }) => kind === 'too-large');
  if (bomb) return { problems: [bomb] };
  problems.push(...tree.problems);
  if (tree.root === void 0) return { problems };
  const root = withSources(tree.root);
  if (root.kind !== 'map') {
    const hint =
      root.kind === 'text' && WITHOUT_BLANK2.test(root.text) ? 'a blank is missing after the colon' : 'the first line may be title: \u2026';
    return {
      problems: [
        ...problems,
        problem('wrong-type', start2, 'keys with values', root.kind === 'list' ? 'a list' : quoted2(root.text), { hint }),
      ],
    };
  }
  return { root, problems };
}

// packages/sim-core/src/scenario/nearest-key.ts
var SYNONYMS = {
  esc: ['controller'],
  prop: ['propeller'],
  screw: ['propeller'],
  gears: ['gearbox'],
  accumulator: ['battery'],
  pack: ['battery'],
  hull: ['vehicle'],
  weight: ['mass'],
  rm: ['resistance'],
  ri: ['cell_resistance', 'resistance'],
  io: ['no_load'],
  idlecurrent: ['no_load', 'idle_current'],
  noloadcurrent: ['no_load'],
  speed: ['vehicle_speed', 'shaft_speed'],
  rpm: ['shaft_speed'],
  power: ['battery_power', 'shaft_power'],
  current: ['motor_current', 'battery_current'],
  duration: ['for'],
  time: ['for'],
  temperature: ['air'],
  magnets: ['poles'],
  polepairs: ['poles'],
};
var folded2 = (text2) => text2.toLowerCase().replace(/[-_ ]/g, '');
function nearestWord(written, known) {
  const word = folded2(written);
  const same2 = known.find((key) => folded2(key) === word);
  if (same2 !== void 0) return same2;
  const meant = Object.hasOwn(SYNONYMS, word) ? SYNONYMS[word].find((key) => known.includes(key)) : void 0;
  if (meant !== void 0) return meant;
  const begun =
    word.length >= 3 ? known.filter((key) => folded2(key).startsWith(word) || (key.length >= 4 && word.startsWith(folded2(key)))) : [];
  if (begun.length === 1) return begun[0];
  const allowed = word.length < 3 ? 0 : word.length < 5 ? 1 : word.length < 9 ? 2 : 3;
  let nearest;
  let least = allowed + 1;
  for (const key of known) {
    const distance = editDistance(word, folded2(key));
    if (distance < least) [nearest, least] = [key, distance];
  }
  return nearest;
}

// packages/sim-core/src/scenario/part-paths.ts
var folderOf = (path) => path.slice(0, path.lastIndexOf('/') + 1);
function normalised(path) {
  const root = path.startsWith('/') ? '/' : '';
  const kept = [];
  for (const step of path.split('/')) {
    if (step === '' || step === '.') continue;
    if (step !== '..') kept.push(step);
    else if (kept.length > 0 && kept.at(-1) !== '..') kept.pop();
    else if (root === '/') return void 0;
    else kept.push(step);
  }
  return root + kept.join('/');
}
function partPath(main, from, use) {
  if (use.startsWith('/') || /^[a-z][a-z0-9+.-]*:|\\/i.test(use)) return void 0;
  const path = normalised(folderOf(from) + use);
  const tree = normalised(folderOf(main));
  if (path === void 0 || tree === void 0) return void 0;
  const within2 = tree === '' ? path : path.startsWith(tree.replace(/\/?$/, '/')) ? path.slice(tree.length).replace(/^\//, '') : void 0;
  return within2 === void 0 || /^\.\.(\/|$)|^\//.test(within2) ? void 0 : path;
}

// packages/sim-core/src/scenario/part-files.ts
var isPartKind = (key) => PART_KINDS.includes(key);
function* partMaps(root) {
  const candidates2 = childOf(root, 'candidates');
  const holders = [root, ...(candidates2?.kind === 'list' ? candidates2.items : [])];
  for (const holder of holders) {
    if (holder.kind !== 'map') continue;
    for (const [key, { value: value2 }] of holder.entries) if (isPartKind(key) && value2.kind === 'map') yield value2;
  }
}
function gatherDocuments(files, main) {
  const byPath = /* @__PURE__ */ new Map();
  const needs = [];
  const waiting = [main];
  for (let path = waiting.pop(); path !== void 0; path = waiting.pop()) {
    if (byPath.has(path) || needs.includes(path)) continue;
    const text2 = files.get(path);
    if (text2 === void 0) needs.push(path);
    else if (text2 === null) byPath.set(path, null);
    else {
      const document = readDocument(path, text2);
      byPath.set(path, document);
      if (document.root === void 0) continue;
      for (const map of path === main ? partMaps(document.root) : [document.root]) {
        const use = textOf(childOf(map, 'use'));
        const part = use === void 0 ? void 0 : partPath(main, path, use);
        if (part !== void 0) waiting.push(part);
      }
    }
  }
  return { main, byPath, needs: needs.sort() };
}
function withPart(kind, map, documents, problems, chain) {
  const useNode = childOf(map, 'use');
  if (useNode === void 0) return map;
  const beside = without(map, 'use');
  const { place } = useNode;
  const object = (...args) => {
    problems.push(problem(...args));
    return beside;
  };
  const use = textOf(useNode);
  if (use === void 0 || use === '')
    return object('wrong-type', place, 'the path of a part file, such as parts/motor.yaml', 'something else');
  const path = partPath(documents.main, place.file, use);
  if (path === void 0) {
    const hint = 'part files lie beside the scenario or in folders below it, and are named with forward slashes';
    return object('use-outside', place, 'a path inside the folder of the scenario', quoted2(use), { hint });
  }
  if (chain.includes(path))
    return object('circular-use', place, 'a file that does not lead back to itself', [...chain, path].join(' uses '));
  const document = documents.byPath.get(path);
  if (document === null || document === void 0) {
    return object('missing-file', place, 'a part file', `${quoted2(path)}, which cannot be read`, {
      hint: 'the path is counted from the file that says use:',
    });
  }
  if (document.root === void 0) return beside;
  const { root } = document;
  const part = textOf(childOf(root, 'part'));
  if (part !== kind) {
    const at2 = childOf(root, 'part')?.place ?? { ...root.place, path: 'part' };
    const found2 = part === void 0 ? 'no such line' : quoted2(part);
    const nearest = part !== void 0 && isPartKind(part) ? void 0 : `part: ${kind}`;
    return object(part === void 0 ? 'missing-datum' : 'conflict', at2, `part: ${kind}, as the section that uses the file`, found2, {
      nearest,
    });
  }
  const body = withPart(kind, without(root, 'part'), documents, problems, [...chain, path]);
  return { ...mergeMaps(body, beside), place: map.place, used: { file: path, beside } };
}
function withParts(drive2, documents, problems) {
  const entries = [...drive2.entries].map(([key, entry2]) => {
    if (!isPartKind(key) || entry2.value.kind !== 'map') return [key, entry2];
    return [key, { ...entry2, value: withPart(key, entry2.value, documents, problems, [drive2.place.file]) }];
  });
  return withEntries(drive2, entries);
}
function partKindProblem(root) {
  const node = childOf(root, 'part');
  const part = textOf(node);
  if (part === void 0 || isPartKind(part)) return void 0;
  return problem('unknown-choice', node.place, alternatives(PART_KINDS), quoted2(part), { nearest: nearestWord(part, PART_KINDS) });
}

// packages/sim-core/src/scenario/profile.ts
var HOLDS = {
  throttle: 'throttle',
  vehicle_speed: 'vehicleSpeed',
  shaft_speed: 'shaftSpeed',
  battery_power: 'batteryPower',
  motor_current: 'motorCurrent',
  thrust: 'thrust',
};
var HOLD_KEYS = Object.keys(HOLDS);
var OF_A_STEP = ['for', 'climb', 'grade', ...HOLD_KEYS];
function profileSteps(entries, node) {
  const problems = [];
  const items = (list) => (list?.kind === 'list' ? list.items : []);
  const check = (entry2, here) => {
    if (entry2.repeat === void 0 && entry2.steps === void 0) problems.push(...stepProblems(entry2, here.place));
    else {
      problems.push(...repeatProblems(entry2, here));
      for (const [index, inner] of (entry2.steps ?? []).entries()) check(inner, items(childOf(here, 'steps'))[index]);
    }
  };
  for (const [index, entry2] of entries.entries()) check(entry2, items(node)[index]);
  const total = countOf(entries);
  if (total > MOST_STEPS2) {
    problems.push(
      problem('too-large', node.place, `at most ${MOST_STEPS2} steps with all repeats`, `${total} steps`, {
        hint: 'repeat less often, or make one longer step of equal ones',
      }),
    );
  }
  return { steps: problems.length > 0 ? [] : unrolled(entries), problems };
}
var countOf = (entries) => entries.reduce((sum, { repeat = 1, steps }) => sum + (steps === void 0 ? 1 : repeat * countOf(steps)), 0);
function unrolled(entries) {
  return entries.flatMap((entry2) => {
    if (entry2.steps === void 0) return [stepOf(entry2)];
    const once2 = unrolled(entry2.steps);
    return Array.from({ length: entry2.repeat }, () => once2).flat();
  });
}
function stepOf(entry2) {
  const held = holdOf(entry2);
  const part = (key, ramp) => (ramp === void 0 ? {} : { [key]: ramp });
  return {
    duration: entry2.for.value,
    ...(entry2.label === void 0 ? {} : { label: entry2.label }),
    hold: HOLDS[held],
    value: entry2[held],
    ...(held === 'vehicle_speed' ? {} : part('vehicleSpeed', entry2.vehicle_speed)),
    ...part('climb', entry2.climb),
    ...part('grade', entry2.grade),
  };
}
function holdOf(entry2) {
  const written = HOLD_KEYS.filter((key) => entry2[key] !== void 0);
  return written.find((key) => key !== 'vehicle_speed') ?? written[0];
}
function stepProblems(entry2, place) {
  const problems = [];
  const held = HOLD_KEYS.filter((key) => entry2[key] !== void 0);
  const others = held.filter((key) => key !== 'vehicle_speed');
  const at2 = (key) => ({ ...place, path: `${place.path}.${key}` });
  if (entry2.for === void 0)
    problems.push(problem('missing-datum', at2('for'), 'how long the step takes', 'nothing', { hint: 'write for: 45 s' }));
  if (held.length === 0) {
    problems.push(
      problem('missing-datum', place, `one of ${alternatives(HOLD_KEYS)}`, 'a step that holds nothing', { hint: 'throttle: 0 % is off' }),
    );
  }
  if (others.length > 1) {
    const hint = 'only vehicle_speed may stand beside another hold';
    problems.push(problem('conflict', place, 'one hold in a step', others.join(' and '), { hint }));
  }
  if (entry2.climb !== void 0 && entry2.grade !== void 0) {
    problems.push(
      problem('conflict', at2('grade'), 'climb or grade', 'both', { hint: 'climb is for aircraft, grade for what stays on the ground' }),
    );
  } else if (entry2.climb !== void 0 && (others.length > 0 || entry2.vehicle_speed === void 0)) {
    const hint = 'with a throttle and a speed the climb is a result; with a speed alone it can be held';
    problems.push(
      problem('conflict', at2('climb'), 'climb with vehicle_speed as the one hold', `climb with ${others[0] ?? 'no speed'}`, { hint }),
    );
  }
  return problems;
}
function repeatProblems(entry2, here) {
  const { place } = here;
  const problems = [];
  const at2 = (key) => childOf(here, key)?.place ?? { ...place, path: `${place.path}.${key}` };
  if (entry2.repeat === void 0)
    problems.push(problem('missing-datum', at2('repeat'), 'how often the steps are done', 'nothing', { hint: 'write repeat: 8' }));
  if (entry2.steps === void 0 || entry2.steps.length === 0) {
    problems.push(
      problem('missing-datum', at2('steps'), 'steps to repeat', 'nothing', { hint: 'write them below steps:, each after a dash' }),
    );
  }
  for (const key of OF_A_STEP) {
    if (entry2[key] === void 0) continue;
    problems.push(problem('conflict', at2(key), 'repeat and steps', `${key} beside them`, { hint: 'it belongs to one of the steps' }));
  }
  return problems;
}

// packages/sim-core/src/scenario/schema-walk.ts
import { z as z9 } from 'zod';

function unwrapped(schema) {
  return schema instanceof z9.ZodOptional ? unwrapped(schema.unwrap()) : schema;
}
function chosen(schema, node) {
  const bare = unwrapped(schema);
  if (!(bare instanceof z9.ZodDiscriminatedUnion)) return bare;
  const kind = textOf(childOf(node, 'kind'));
  return bare.options.find(({ shape }) => shape['kind'] instanceof z9.ZodLiteral && shape['kind'].value === kind);
}
function schemaAt(schema, path, root) {
  let node = root;
  let here = chosen(schema, node);
  for (const step of path) {
    if (here instanceof z9.ZodObject) {
      here = here.shape[String(step)];
      node = childOf(node, String(step));
    } else if (here instanceof z9.ZodArray) {
      here = here.element;
      node = node?.kind === 'list' ? node.items[Number(step)] : void 0;
    } else return void 0;
    if (here === void 0) return void 0;
    here = chosen(here, node) ?? unwrapped(here);
  }
  return here;
}
function keysOf(schema) {
  return schema instanceof z9.ZodObject ? Object.keys(schema.shape) : [];
}
function describedAt(schema, path, root) {
  const here = schemaAt(schema, path, root);
  const description = here && z9.globalRegistry.get(here)?.description;
  const example = here && FIELD_FACTS.get(here)?.example;
  if (example !== void 0) return `${description}, such as ${example}`;
  const named2 = description === void 0 ? '' : `${description}: `;
  if (here instanceof z9.ZodArray) return `${named2}a list`;
  if (here instanceof z9.ZodObject || here instanceof z9.ZodDiscriminatedUnion) {
    const keys = here instanceof z9.ZodObject ? keysOf(here) : ['kind'];
    return `${named2}keys with values, such as ${keys.slice(0, 3).join(', ')}`;
  }
  return description ?? 'a value';
}
function sectionsTaking(key) {
  const found2 = /* @__PURE__ */ new Set();
  const search = (schema, path) => {
    const here = unwrapped(schema);
    if (here instanceof z9.ZodDiscriminatedUnion) for (const option of here.options) search(option, path);
    else if (here instanceof z9.ZodArray) search(here.element, path);
    else if (here instanceof z9.ZodObject) {
      if (Object.hasOwn(here.shape, key) && path !== '') found2.add(path);
      for (const [name, inner] of Object.entries(here.shape)) search(inner, path === '' ? name : `${path}.${name}`);
    }
  };
  if (key !== 'source' && key !== 'kind') search(drive, '');
  return [...found2];
}

// packages/sim-core/src/scenario/validate.ts
function validate(schema, node, alsoKnown = []) {
  const result = schema.safeParse(toPlain(node));
  if (result.success) return { ok: true, value: result.data };
  return { ok: false, problems: result.error.issues.flatMap((issue) => problemsOf(issue, schema, node, alsoKnown)) };
}
function problemsOf(issue, schema, root, alsoKnown) {
  const { node, place } = locate(root, issue.path);
  const refusal = refusalIn(issue);
  if (refusal) return [problem(refusal.kind, place, refusal.expected, refusal.found, refusal)];
  if (issue.code === 'unrecognized_keys') {
    const known = [...keysOf(schemaAt(schema, issue.path, root)), ...(issue.path.length === 0 ? alsoKnown : [])];
    return issue.keys.map((key) => unknownKey(key, locate(root, [...issue.path, key], true).place, known));
  }
  const described = describedAt(schema, issue.path, root);
  if (issue.code === 'invalid_union' && 'options' in issue && node === void 0) {
    const kinds = issue.options.map(String);
    return [
      problem('missing-datum', place, alternatives(kinds), 'nothing', {
        hint: `write ${String(issue.path.at(-1))}: ${kinds[0]}, or another of them`,
      }),
    ];
  }
  if (node === void 0) return [problem('missing-datum', place, described, 'nothing', { hint: whatToWrite(issue.path, schema, root) })];
  if (issue.code === 'invalid_value') return [unknownChoice(issue.values.map(String), node, place)];
  if (issue.code === 'invalid_union' && 'options' in issue) return [unknownChoice(issue.options.map(String), node, place)];
  if (issue.code === 'too_small') return [problem('missing-datum', place, 'at least one row', 'an empty list')];
  return [problem('wrong-type', place, described, found(node), { hint: typeHint(node) })];
}
function unknownChoice(values, node, place) {
  const text2 = textOf(node);
  if (text2 === '') return problem('missing-datum', place, alternatives(values), 'nothing');
  return problem('unknown-choice', place, alternatives(values), found(node), {
    nearest: text2 === void 0 ? void 0 : nearestWord(text2, values),
  });
}
function unknownKey(key, place, known) {
  const nearest = nearestWord(key, known);
  const elsewhere = nearest === void 0 ? sectionsTaking(key) : [];
  const hint =
    key === '<<'
      ? 'merge keys are not read: put the shared part into a file and bring it in by use:'
      : elsewhere.length > 0
        ? `${quoted2(key)} stands in ${alternatives(elsewhere.slice(0, 3))}`
        : nearest === void 0
          ? `known here: ${[...known].sort().join(', ')}`
          : void 0;
  return problem('unknown-key', place, 'a key that is known here', quoted2(key), { nearest, hint });
}
function found(node) {
  if (node.kind === 'list') return 'a list';
  if (node.kind === 'map') return `keys with values (${[...node.entries.keys()].slice(0, 3).join(', ')})`;
  return node.text === '' ? 'nothing' : quoted2(node.text);
}
function typeHint(node) {
  if (node.kind !== 'text') return void 0;
  if (node.text === '') return 'indent the lines that belong to it by two blanks';
  if (/^\w+:[\u00a0\u2007\u202f]/.test(node.text)) return 'a no-break space stands after the colon: type the blank again';
  const joined2 = /^([a-z][a-z_]*):([^\s/].*)$/s.exec(node.text);
  return joined2 ? `a blank is missing after the colon: write ${joined2[1]}: ${joined2[2]}` : void 0;
}
function whatToWrite(path, schema, root) {
  const field2 = schemaAt(schema, path, root);
  const example = field2 && FIELD_FACTS.get(field2)?.example;
  return example === void 0 ? void 0 : `write ${String(path.at(-1))}: ${example}`;
}
function locate(root, path, key = false) {
  let node = root;
  for (const [index, step] of path.entries()) {
    const entry2 = node.kind === 'map' ? node.entries.get(String(step)) : void 0;
    const next = entry2?.value ?? (node.kind === 'list' ? node.items[Number(step)] : void 0);
    if (next === void 0) {
      const missing = path.slice(index).reduce((so, more) => inPath(so, typeof more === 'number' ? more : String(more)), node.place.path);
      return { place: { ...node.place, path: missing } };
    }
    if (key && index === path.length - 1 && entry2) return { node: next, place: entry2.keyPlace };
    node = next;
  }
  return { node, place: node.place };
}

// packages/sim-core/src/scenario/read-scenario.ts
function readScenario(files, main) {
  const documents = gatherDocuments(files, main);
  if (documents.needs.length > 0) return { needs: documents.needs };
  const problems = [...documents.byPath.values()].flatMap((document) => document?.problems ?? []);
  const root = documents.byPath.get(main)?.root;
  if (root === void 0) {
    if (documents.byPath.get(main) === null) {
      const place = { file: main, line: 1, column: 1, path: '' };
      problems.push(problem('missing-file', place, 'a scenario', `${quoted2(main)}, which cannot be read`));
    }
    return { ok: false, problems };
  }
  problems.push(...checkParts(documents));
  const common = pick(root, SECTION_NAMES);
  problems.push(...checkDocument(common));
  const top = readHead(root, problems);
  const candidates2 = readCandidates(root, common, documents, problems);
  const found2 = withoutRepetition(problems, main);
  if (found2.length > 0 || top === void 0) return { ok: false, problems: found2 };
  return { ok: true, scenario: { ...top, candidates: candidates2 }, files: [...documents.byPath.keys()] };
}
function readHead(root, problems) {
  const profileNode = childOf(root, 'profile');
  const top = validate(head.omit({ profile: true }), without(root, ...SECTION_NAMES, 'candidates', 'profile'), [
    'profile',
    'candidates',
    ...SECTION_NAMES,
  ]);
  if (!top.ok) problems.push(...top.problems);
  const read = profileNode === void 0 ? void 0 : readProfile(profileNode, problems);
  if (profileNode === void 0 || (read?.steps.length === 0 && read.problems.length === 0)) {
    const place = profileNode?.place ?? { ...root.place, path: 'profile' };
    const hint = 'write profile: [{ for: 3 min, throttle: 80 % }]';
    problems.push(problem('nothing-to-do', place, 'a profile with at least one step', profileNode ? 'an empty one' : 'none', { hint }));
  }
  if (!top.ok || read === void 0) return void 0;
  const { title, notes, objective = 'coolest' } = top.value;
  return { title, ...(notes === void 0 ? {} : { notes }), objective, profile: read.steps };
}
function readProfile(node, problems) {
  const entries = validate(profile, node);
  if (!entries.ok) {
    problems.push(...entries.problems);
    return void 0;
  }
  const read = profileSteps(entries.value, node);
  problems.push(...read.problems);
  return read;
}
function readCandidates(root, common, documents, problems) {
  const node = childOf(root, 'candidates');
  const hint = 'write candidates: and below it - name: \u2026, with a motor';
  if (node?.kind !== 'list' || node.items.length === 0) {
    const nothing = node === void 0 || node.kind === 'list' || textOf(node) === '';
    const place = node?.place ?? { ...root.place, path: 'candidates' };
    problems.push(
      nothing
        ? problem('nothing-to-do', place, 'at least one candidate', 'none', { hint })
        : problem('wrong-type', place, 'a list of candidates, each after a dash', 'something else', { hint }),
    );
    return [];
  }
  const base = withParts(common, documents, problems);
  const names = /* @__PURE__ */ new Map();
  const candidates2 = [];
  for (const item of node.items) {
    if (item.kind !== 'map') {
      problems.push(
        problem('wrong-type', item.place, 'a candidate with name and motor', item.kind === 'list' ? 'a list' : quoted2(item.text), {
          hint,
        }),
      );
      continue;
    }
    const own = pick(item, SECTION_NAMES);
    problems.push(...checkDocument(own));
    const named2 = validate(candidateName, without(item, ...SECTION_NAMES), SECTION_NAMES);
    if (!named2.ok) problems.push(...named2.problems);
    const merged = oneRowAsList(mergeMaps(base, withParts(own, documents, problems)));
    problems.push(...checkDrive(merged));
    const whole = validate(drive, merged);
    if (!whole.ok) problems.push(...whole.problems);
    if (!named2.ok) continue;
    const { name } = named2.value;
    const earlier = names.get(name);
    if (earlier === void 0) names.set(name, item.place.line);
    else
      problems.push(
        problem(
          'duplicate-name',
          childOf(item, 'name').place,
          'a name of its own for each candidate',
          `${quoted2(name)}, as in line ${earlier}`,
        ),
      );
    if (whole.ok) candidates2.push({ name, given: given(whole.value, merged) });
  }
  return candidates2;
}
function checkDocument(written) {
  const kept = [...written.entries]
    .filter(
      ([key, { value: value2 }]) =>
        textOf(value2) !== NONE && !(key === 'propeller' && value2.kind === 'map' && !value2.entries.has('kind')),
    )
    .map(([key, entry2]) => [
      key,
      isPartKind(key) && entry2.value.kind === 'map' ? { ...entry2, value: without(entry2.value, 'use') } : entry2,
    ]);
  return withoutMissing(validate(drive, oneRowAsList(withoutNone(withEntries(written, kept)))));
}
function checkParts(documents) {
  return [...documents.byPath].flatMap(([path, document]) => {
    const root = document?.root;
    if (root === void 0 || path === documents.main) return [];
    const part = textOf(childOf(root, 'part'));
    if (part === void 0 || !isPartKind(part)) return partKindProblem(root) ?? [];
    const body = withoutNone(without(root, 'part', 'use'));
    if (part === 'propeller' && !body.entries.has('kind')) return [];
    return withoutMissing(validate(PARTS[part], part === 'motor' ? listed(body) : body));
  });
}
var withoutMissing = (result) => (result.ok ? [] : result.problems.filter(({ kind }) => kind !== 'missing-datum'));
function pick(map, keys) {
  return withEntries(
    map,
    [...map.entries].filter(([key]) => keys.includes(key)),
  );
}
function oneRowAsList(written) {
  const motor2 = written.entries.get('motor');
  if (motor2?.value.kind !== 'map') return written;
  return withEntries(written, new Map(written.entries).set('motor', { ...motor2, value: listed(motor2.value) }));
}
function listed(motor2) {
  const row = motor2.entries.get('no_load');
  if (row?.value.kind !== 'map') return motor2;
  const list = { kind: 'list', place: row.value.place, items: [row.value] };
  return withEntries(motor2, new Map(motor2.entries).set('no_load', { ...row, value: list }));
}
function withoutRepetition(problems, main) {
  const misspelt = new Set(
    problems.flatMap(({ kind, place, nearest }) => (kind === 'unknown-key' && nearest ? [inPath(above(place.path), nearest)] : [])),
  );
  const first = /* @__PURE__ */ new Map();
  for (const found2 of problems) {
    const { file, line, column, path } = found2.place;
    if ((found2.kind === 'missing-datum' || found2.kind === 'nothing-to-do') && misspelt.has(path)) continue;
    const key = `${file}
${line}:${column}:${path}`;
    if (!first.has(key)) first.set(key, found2);
  }
  const order = ({ file }) => (file === main ? '' : file);
  return [...first.values()].sort(
    ({ place: a }, { place: b }) => (order(a) < order(b) ? -1 : order(a) > order(b) ? 1 : 0) || a.line - b.line || a.column - b.column,
  );
}
var above = (path) => path.slice(0, Math.max(0, path.lastIndexOf('.')));

// packages/sim-core/src/run-scenario.ts
function prepareScenario(files, main) {
  const reading = readScenario(files, main);
  if ('needs' in reading) return reading;
  if (!reading.ok) return reading;
  const problems = [];
  const candidates2 = [];
  for (const { name, given: given2 } of reading.scenario.candidates) {
    const completion = complete(name, given2);
    if (completion.ok) candidates2.push({ name, given: given2, data: completion.data });
    else problems.push(...completion.problems);
  }
  if (problems.length > 0) return { ok: false, problems: once(problems) };
  const texts = reading.files.map((path) => ({ path, text: files.get(path) ?? '' }));
  return { ok: true, prepared: { scenario: reading.scenario, candidates: candidates2, files: texts, hash: hashOf(texts) } };
}
function once(problems) {
  const seen = /* @__PURE__ */ new Set();
  return problems.filter(({ place, expected }) => {
    const key = `${place.file}:${place.line}:${place.column}:${place.path}:${expected}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
function hashOf(files) {
  let hash = 2166136261;
  for (const { path, text: text2 } of files) {
    for (const char of `${path}
${text2}
`) {
      hash ^= char.codePointAt(0);
      hash = Math.imul(hash, 16777619) >>> 0;
    }
  }
  return hash.toString(16).padStart(8, '0');
}

// test/bench/reference-system.ts
var text = readFileSync(new URL('../scenarios/survey-boat.yaml', import.meta.url), 'utf8');
var preparation = prepareScenario(/* @__PURE__ */ new Map([['boat.yaml', text]]), 'boat.yaml');
if (!('ok' in preparation) || !preparation.ok) throw new Error('the demo is not ready');
var { candidates, scenario } = preparation.prepared;
var boat = realise(candidates[0].data);
function referenceSystem() {
  const { parameters: p, profile: profile2 } = JSON.parse(
    readFileSync(new URL('./bench/reference/reference-case.json', import.meta.url), 'utf8'),
  );
  const kt = RPM ** -1 / p.Kv;
  const noLoad = (p.V0 - p.I0 * p.R20) / kt;
  const degrees = ZERO_CELSIUS + p.Ta;
  const load = boat.load;
  const infinite = Number.POSITIVE_INFINITY;
  const system = {
    ...boat,
    surroundings: { ...boat.surroundings, airTemperature: degrees, compartmentTemperature: degrees, airPressure: 101325 },
    battery: {
      ...boat.battery,
      cellsInSeries: p.Ns,
      cellsInParallel: p.Np,
      capacity: p.Qah * SECONDS_PER_HOUR,
      cellResistance: p.R0,
      polarisationResistance: p.R1,
      polarisationTime: p.R1 * p.C1,
      activation: 0,
    },
    wiring: { resistance: 0 },
    controller: {
      ...boat.controller,
      pathResistance: p.Ron,
      resistanceCoefficient: 0,
      switchingTime: p.tsw,
      pwmFrequency: p.fpwm,
      voltageLoss: 0,
      idleCurrent: p.Iidle,
      motorCurrentLimit: infinite,
    },
    motor: {
      ...boat.motor,
      torqueConstant: kt,
      resistance: p.R20,
      fluxCoefficient: -11e-4,
      hysteresisTorque: 0,
      frictionTorque: (kt * p.I0) / 2,
      eddyTorque: (kt * p.I0) / 2 / noLoad,
      magnetLossShare: 0,
    },
    load: {
      ...load,
      diameter: p.D,
      density: p.rho,
      kinematicViscosity: 15e-6,
      wakeFraction: 0,
      thrustDeduction: 0,
      shaftEfficiency: 1,
      table: tableFromPolynomial({ thrust: [p.ct0, p.ct1, p.ct2], power: [p.cp0, p.cp1, p.cp2] }),
    },
    vehicle: { ...boat.vehicle, mass: p.m, addedMass: 0, dragArea: p.CdA, density: p.rho, dragTable: void 0 },
    heat: {
      ...boat.heat,
      capacity: { winding: p.Cw, stator: 0, can: p.Cc, magnets: 0, controller: p.Cctl, cells: infinite },
      windingToStator: 1 / p.Rwc,
      statorToCan: infinite,
      statorToMagnets: infinite,
      magnetsToCan: infinite,
      canToMount: 0,
      controllerToAir: 1 / p.Rctl,
      sideArea: p.A,
      endArea: 0,
      canDiameter: p.Dc,
      canLength: p.Dc,
      emissivity: p.eps,
      jacket: void 0,
      vehicleSpeedShare: 1,
      slipstreamShare: p.fwash,
    },
    start: { charge: p.soc0, motorTemperature: degrees, controllerTemperature: degrees, cellTemperature: degrees },
    limits: { ...boat.limits, windingTemperature: ZERO_CELSIUS + p.Twmax, cellVoltage: 0 },
  };
  const steps = profile2.map((s) => ({
    duration: s.for_s,
    hold: 'throttle',
    value: { from: s.throttle_from, to: s.throttle_to },
  }));
  return { system, profile: steps };
}

// test/prof.tmp.ts
var which = process.argv[2] ?? 'ref';
var ref = which === 'ref' ? referenceSystem() : { system: boat, profile: scenario.profile };
var opt = { method: 'dormand-prince', relative: 1e-4, record: false };
for (let k = 0; k < 300; k++) simulate(ref.system, ref.profile, opt);
if (COUNT) {
  COUNT.residuals = 0;
  COUNT.solves = 0;
}
var N = 400;
var t0 = performance.now();
var run;
for (let k = 0; k < N; k++) run = simulate(ref.system, ref.profile, opt);
var t = (performance.now() - t0) / N;
console.log(
  which,
  t.toFixed(3),
  'ms',
  run.evaluations,
  'evaluations',
  run.steps,
  'steps',
  COUNT && COUNT.residuals / N,
  'residuals',
  COUNT && COUNT.solves / N,
  'solves',
);
var kernel = createKernel();
kernel.load(ref.system);
var y = new Float64Array(kernel.dimension);
var dy = new Float64Array(kernel.dimension);
kernel.initial(y);
for (let k = 0; k < kernel.bodyIndex.length; k++) y[kernel.bodyIndex[k]] += 20;
y[kernel.dimension - 1] = 3;
kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.7, to: 0.7 } }, 0, false);
var M = 3e5;
for (let r = 0; r < 3; r++) {
  const a = performance.now();
  for (let k = 0; k < M; k++) {
    y[kernel.dimension - 1] = 3 + 1e-3 * (k % 10);
    y[0] += 1e-7;
    kernel.derivative(0, y, dy);
  }
  const b = performance.now();
  for (let k = 0; k < M; k++) {
    y[kernel.dimension - 1] = 3 + 1e-3 * (k % 10);
    y[0] += 1e-7;
    kernel.solve(0, y);
  }
  const c = performance.now();
  let _s = 0;
  for (let k = 0; k < M; k++) _s += canHeatFlow(ref.system.heat, y[kernel.bodyIndex[2]], 295, 1e5, 3 + 1e-3 * (k % 10), 0);
  const d = performance.now();
  console.log(
    'derivative',
    (((b - a) / M) * 1e3).toFixed(3),
    'solve',
    (((c - b) / M) * 1e3).toFixed(3),
    'can',
    (((d - c) / M) * 1e3).toFixed(3),
    '\xB5s',
  );
}
