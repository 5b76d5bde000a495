/**
 * What drives a volume from outside, as functions of time; the solver knows no crank. A drive is asked and answers in the
 * slots of one array, `Asked`, so that a step allocates nothing.
 */

export const DRIVE = {
  /** Asked for: a time [s]; for the heat from the wall also the gas: pressure [Pa], temperature [K], density [kg/m3]. */
  time: 0,
  pressure: 1,
  temperature: 2,
  density: 3,
  /** Answered: volume [m3], heat from the wall into the gas [W], burnt share of the charge [-]. */
  volume: 4,
  wallHeat: 5,
  burntShare: 6,
} as const;

export type Asked = Float64Array;

export function newAsked(): Asked {
  return new Float64Array(7);
}

export interface VolumeDrive {
  /** Fills the volume at the time asked for. */
  fillVolume(asked: Asked): void;
  /** Fills the heat from the wall, the volume at that time being filled. */
  fillWallHeat(asked: Asked): void;
  /** Heat released up to a time, of what is released from now on; null: none. */
  readonly release: Release | null;
}

export interface Release {
  /** Fills the burnt share, which grows by one with each charge. */
  fillBurntShare(asked: Asked): void;
  /** Fresh mass burnt with each charge [kg]. */
  readonly freshMass: number;
  /** Heat released per fresh mass [J/kg]. */
  readonly heatPerMass: number;
}

/** A constant volume without heat. */
export function rigidDrive(volume: number): VolumeDrive {
  return {
    fillVolume: (asked) => {
      asked[DRIVE.volume] = volume;
    },
    fillWallHeat: (asked) => {
      asked[DRIVE.wallHeat] = 0;
    },
    release: null,
  };
}

/** A volume as a plain function of time [s, m3], which boxes a number or two at each call; without heat. */
export function movingDrive(volume: (time: number) => number): VolumeDrive {
  return {
    ...rigidDrive(0),
    fillVolume: (asked) => {
      asked[DRIVE.volume] = volume(asked[DRIVE.time]);
    },
  };
}
