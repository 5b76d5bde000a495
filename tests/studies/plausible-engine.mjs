/**
 * Plausible engines with their pipes, drawn at random as case documents: singles of 50 to 500 cc with a reed, a piston port or a
 * disc, and pipes of usual proportions about the length that the exhaust's duration and a speed ask for. Ranges: common
 * practice, no source, spread on either side. The same stream of random numbers gives the same case.
 */

/** Mean sound speed in a pipe that the tuned length is taken with [m/s]. */
const SOUND = 530;
const mm = (length) => `${(1000 * length).toFixed(3)} mm`;
const deg = (angle) => `${angle.toFixed(2)} deg`;
const plain = (number) => Number(number.toFixed(4));

/** A draw in a range, evenly; whole numbers; one of some. `uniform` gives numbers in [0, 1). */
function drawing(uniform) {
  const between = (low, high) => low + (high - low) * uniform();
  return { between, whole: (low, high) => Math.floor(between(low, high + 1)), chance: (p) => uniform() < p };
}

/** A case at 20 mm cells with three speeds about the pipe's own, from numbers in [0, 1). */
export function plausibleCase(uniform, name, cell = '20 mm') {
  const draw = drawing(uniform);
  const { between, chance } = draw;
  const capacity = 50e-6 * 10 ** between(0, 1);
  const square = between(0.85, 1.2);
  const bore = ((4 * capacity) / (Math.PI * square)) ** (1 / 3);
  const stroke = square * bore;
  const exhaustDeg = between(166, 204);
  const rpm = (30 * between(14, 21)) / stroke;
  const exit = between(0.6, 0.74) * bore;
  const passage = between(0.85, 1.4) * bore;
  const length = (((between(0.9, 1.12) * exhaustDeg) / 6 / rpm) * SOUND) / 2;
  const speeds = [0.78, 1, 1.14].map((share) => `${Math.round(share * rpm)} rpm`);
  return {
    kind: 'case',
    name,
    engine: engineOf(draw, { name, bore, stroke, exhaustDeg, exit, passage }),
    pipe: pipeOf(draw, { name, exit, passage, length }),
    run: {
      speeds,
      cell,
      wallHeat: chance(0.2) ? 'none' : 'colburn',
      friction: chance(0.1) ? 'none' : 'haaland',
      kernel: 'two-lane',
    },
  };
}

function engineOf(draw, { name, bore, stroke, exhaustDeg, exit, passage }) {
  const { between, chance } = draw;
  const transferDeg = Math.min(140, Math.max(108, exhaustDeg - 2 * between(21, 36)));
  const width = (low, high) => mm(between(low, high) * bore);
  const window = (label, count, low, high, up) => ({
    name: label,
    count,
    width: width(low, high),
    duration: deg(transferDeg),
    corners: mm(0.03 * bore),
    upAngle: deg(up),
  });
  const transfers = [
    window('front', 2, 0.26, 0.36, between(0, 20)),
    window('rear', 2, 0.2, 0.3, between(0, 25)),
  ];
  if (chance(0.6)) transfers.push(window('boost', 1, 0.25, 0.38, between(35, 60)));
  const displaced = between(0, 0.8);
  const crossing = between(0, 0.32);
  // Shares of one stream.
  const scavenging = {
    displacement: plain(Math.min(displaced, 0.99 - crossing)),
    shortCircuit: plain(crossing),
  };
  return {
    kind: 'engine',
    name,
    bore: mm(bore),
    stroke: mm(stroke),
    rod: mm(between(1.75, 2.2) * stroke),
    compression: { trapped: plain(between(6, 8.5)) },
    exhaust: {
      windows: [
        {
          name: 'main',
          width: width(0.55, 0.72),
          duration: deg(exhaustDeg),
          corners: { top: mm(0.1 * bore), bottom: mm(0.12 * bore) },
          arch: mm(between(0, 0.04) * bore),
        },
      ],
    },
    transfers: {
      windows: transfers,
      passage: { length: mm(between(1.2, 1.8) * bore), ...(chance(0.5) ? { inertia: true } : {}) },
    },
    passage: { length: mm(passage), exitDiameter: mm(exit) },
    crankcase: { compression: plain(between(1.25, 1.5)) },
    intake: intakeOf(draw, bore),
    ...(chance(0.7) ? { scavenging } : {}),
  };
}

function intakeOf({ between, whole, chance }, bore) {
  const carburettor = between(0.5, 0.72) * bore;
  const stub = between(0.9, 1.1) * carburettor;
  const tract = [
    {
      name: 'mouth',
      length: mm(between(0.3, 0.6) * carburettor),
      diameter: [mm(1.25 * carburettor), mm(carburettor)],
    },
    { name: 'carburettor', length: mm(between(1.8, 3) * carburettor), diameter: mm(carburettor) },
    { name: 'stub', length: mm(between(1.5, 4) * carburettor), to: mm(stub) },
  ];
  const area = (Math.PI / 4) * carburettor ** 2;
  const mm2 = (value) => `${(1e6 * value).toFixed(1)} mm2`;
  if (chance(0.6)) {
    const petal = between(0.55, 0.75) * bore;
    const count = whole(4, 8);
    return {
      reed: {
        tract,
        petals: {
          count,
          width: mm((between(1.6, 2.6) * bore) / count),
          length: mm(petal),
          thickness: mm(between(0.009, 0.014) * petal),
          stop: mm(between(0.16, 0.26) * petal),
        },
        cageArea: mm2(between(1, 1.5) * area),
      },
    };
  }
  if (chance(0.5)) {
    const width = between(0.6, 0.75) * bore;
    return {
      pistonPort: {
        tract,
        duration: deg(between(125, 170)),
        width: mm(width),
        height: mm((between(0.9, 1.2) * area) / width),
        corners: mm(0.05 * bore),
      },
    };
  }
  return {
    disc: {
      tract,
      opens: deg(between(-150, -120)),
      closes: deg(between(50, 82)),
      area: mm2(between(0.85, 1.2) * area),
    },
  };
}

/** Header, one to three diffusers, belly, baffle in one or two cones, stinger; all but the stinger make up the tuned length. */
function pipeOf({ between, whole }, { name, exit, passage, length }) {
  const header = {
    length: Math.max(1.5 * exit, between(0.24, 0.36) * length - passage),
    end: between(1, 1.15) * exit,
  };
  const belly = between(2, 2.9) * exit;
  const stinger = between(0.54, 0.7) * exit;
  const shares = { diffuser: between(0.24, 0.36), belly: between(0.06, 0.2), baffle: between(0.16, 0.28) };
  const rest = length - passage - header.length;
  const whole3 = shares.diffuser + shares.belly + shares.baffle;
  const part = (share) => (share / whole3) * rest;
  const cones = whole(1, 3);
  const diffusers = Array.from({ length: cones }, (_, k) => ({
    name: `diffuser ${k + 1}`,
    length: mm(part(shares.diffuser) / cones),
    to: mm(header.end + (belly - header.end) * ((k + 1) / cones) ** between(1, 1.3)),
  }));
  // The last ends on the belly itself, whatever its bend.
  diffusers[cones - 1].to = mm(belly);
  const baffles = whole(1, 2);
  const waist = belly + (stinger - belly) * between(0.35, 0.55);
  return {
    kind: 'pipe',
    name,
    sections: [
      { name: 'header', length: mm(header.length), diameter: [mm(exit), mm(header.end)] },
      ...diffusers,
      { name: 'belly', length: mm(part(shares.belly)), diameter: 'same' },
      ...(baffles === 1
        ? [{ name: 'baffle', length: mm(part(shares.baffle)), to: mm(stinger) }]
        : [
            { name: 'baffle 1', length: mm(part(shares.baffle) / 2), to: mm(waist) },
            { name: 'baffle 2', length: mm(part(shares.baffle) / 2), to: mm(stinger) },
          ]),
      { name: 'stinger', length: mm(between(9, 15) * stinger), diameter: 'same' },
    ],
  };
}
