/**
 * Six invented engines of other kinds than the examples: reed, piston port and disc, 50 to 250 cc, with good, short, long and
 * narrow pipes. Each is written as one case with everything inline. No such engine was measured.
 */

const tract = (mm) =>
  `tract: [ { name: mouth, length: 20 mm, diameter: [${mm + 6} mm, ${mm} mm] }, { name: carburettor, length: 80 mm, diameter: ${mm} mm }, { name: stub, length: 70 mm, diameter: ${mm} mm } ]`;

const intakes = {
  reed: (mm) =>
    `{ reed: { ${tract(mm)}, petals: { count: 6, width: ${(0.55 * mm).toFixed(1)} mm, length: ${mm} mm, thickness: 0.4 mm, stop: 7 mm }, cageArea: ${Math.round(1.2 * mm * mm)} mm2 } }`,
  pistonPort: (mm) =>
    `{ pistonPort: { ${tract(mm)}, width: ${Math.round(1.15 * mm)} mm, height: ${Math.round(0.8 * mm)} mm, duration: 160 deg, corners: 3 mm } }`,
  disc: (mm) =>
    `{ disc: { ${tract(mm)}, opens: -140 deg, closes: 65 deg, area: ${Math.round(0.8 * mm * mm)} mm2 } }`,
};

/** Bore, stroke, rod [mm]; exhaust and transfer duration [deg]; header diameter [mm]; lengths of the six sections [mm]. */
const engines = {
  'reed-80-short': {
    intake: 'reed',
    bore: 48,
    stroke: 44,
    rod: 88,
    exhaust: 190,
    transfer: 128,
    header: 31,
    lengths: [100, 170, 90, 60, 150, 190],
    belly: 78,
    stinger: 19.5,
    speeds: [9000, 14000],
    target: 11500,
  },
  'reed-250-long': {
    intake: 'reed',
    bore: 66.4,
    stroke: 72,
    rod: 130,
    exhaust: 186,
    transfer: 126,
    header: 43,
    lengths: [330, 260, 160, 120, 260, 280],
    belly: 116,
    stinger: 27,
    speeds: [5500, 9500],
    target: 8250,
  },
  'pistonport-100': {
    intake: 'pistonPort',
    bore: 50.6,
    stroke: 49.6,
    rod: 100,
    exhaust: 178,
    transfer: 124,
    header: 34,
    lengths: [230, 210, 130, 90, 230, 230],
    belly: 82,
    stinger: 21,
    speeds: [7000, 11500],
    target: 9500,
  },
  'pistonport-175-narrow': {
    intake: 'pistonPort',
    bore: 61,
    stroke: 59.6,
    rod: 118,
    exhaust: 176,
    transfer: 122,
    header: 38,
    lengths: [290, 230, 130, 100, 250, 250],
    belly: 74,
    stinger: 23,
    speeds: [6000, 10000],
    target: 8000,
  },
  'disc-125': {
    intake: 'disc',
    bore: 54,
    stroke: 54.5,
    rod: 110,
    exhaust: 194,
    transfer: 130,
    header: 37,
    lengths: [190, 190, 120, 70, 200, 230],
    belly: 92,
    stinger: 23,
    speeds: [8000, 13000],
    target: 11000,
  },
  'disc-50-long': {
    intake: 'disc',
    bore: 40,
    stroke: 39.7,
    rod: 80,
    exhaust: 190,
    transfer: 130,
    header: 26,
    lengths: [180, 180, 100, 60, 170, 180],
    belly: 66,
    stinger: 16,
    speeds: [8500, 14000],
    target: 12000,
  },
};

const windows = ({
  bore,
  exhaust,
  transfer,
}) => `  exhaust: { windows: [ { name: main, width: ${(0.66 * bore).toFixed(1)} mm, duration: ${exhaust} deg, corners: { top: 6 mm, bottom: 7 mm }, arch: 1.5 mm } ] }
  transfers:
    windows:
      - { name: front, count: 2, width: ${(0.33 * bore).toFixed(1)} mm, duration: ${transfer} deg, corners: 2 mm, upAngle: 8 deg }
      - { name: rear, count: 2, width: ${(0.27 * bore).toFixed(1)} mm, duration: ${transfer} deg, corners: 2 mm, upAngle: 15 deg }
    passage: { length: ${Math.round(1.5 * bore)} mm }`;

function caseText(name, e) {
  const [header, d1, d2, belly, baffle, stinger] = e.lengths;
  const middle = Math.round(e.header + 0.45 * (e.belly - e.header));
  const carburettor = Math.round(0.62 * e.bore);
  return `# Invented, for studies. No such engine was measured.
kind: case
name: ${name}
engine:
  name: ${name}
  bore: ${e.bore} mm
  stroke: ${e.stroke} mm
  rod: ${e.rod} mm
  compression: { trapped: 7.2 }
${windows(e)}
  passage: { length: ${Math.round(1.2 * e.bore)} mm, exitDiameter: ${e.header} mm }
  crankcase: { compression: 1.36 }
  intake: ${intakes[e.intake](carburettor)}
pipe:
  name: ${name}
  sections:
    - { name: header, length: ${header} mm, diameter: [${e.header} mm, ${e.header + 2} mm] }
    - { name: diffuser 1, length: ${d1} mm, to: ${middle} mm }
    - { name: diffuser 2, length: ${d2} mm, to: ${e.belly} mm }
    - { name: belly, length: ${belly} mm, diameter: same }
    - { name: baffle, length: ${baffle} mm, to: ${e.stinger} mm }
    - { name: stinger, length: ${stinger} mm, diameter: same }
run:
  speeds: { from: ${e.speeds[0]} rpm, to: ${e.speeds[1]} rpm, step: 250 rpm }
  targetSpeed: ${e.target} rpm
`;
}

export const studyEngines = Object.entries(engines).map(([name, engine]) => ({
  name,
  text: caseText(name, engine),
}));
