/**
 * What a drive does to its volume: at the start of a step, and over the span of a stage. It is asked with the gas as the
 * stage finds it, before the streams of the stage are known.
 */

import { CLOCK, type Clock } from '../march/clock.ts';
import { DRIVE, newAsked, type VolumeDrive } from './drive.ts';

export abstract class Driven {
  readonly drive: VolumeDrive;
  pressure = 0;
  /** Mean temperature by heat content [K]. */
  meanTemperature = 0;
  /** Volume at the start of the step and at the end of the span [m3]. */
  protected volume = 0;
  protected endVolume = 0;
  /** Time that the end of the span was asked at [s]. The next stage and the next step begin where the last one ended. */
  private endTime = Number.NaN;
  /** Length of the span [s], heat from the wall over it [J], and the share of the charge that burns in it [-]. */
  protected span = 0;
  protected spanHeat = 0;
  protected burning = 0;
  private burntShare = 0;
  private readonly asked = newAsked();

  constructor(drive: VolumeDrive) {
    this.drive = drive;
  }

  /** Volume at a time [m3]. */
  volumeAt(time: number): number {
    this.asked[DRIVE.time] = time;
    this.drive.fillVolume(this.asked);
    return this.asked[DRIVE.volume];
  }

  /** Gas mass in the volume [kg]. */
  abstract mass(): number;

  /** Forgets the streams of the last stage. */
  protected abstract clearStreams(): void;

  /** A step starts at the clock's time; until a stage begins, the span is empty. */
  protected startStep(clock: Clock): void {
    const { drive, asked } = this;
    asked[DRIVE.time] = clock[CLOCK.time];
    this.fillVolume();
    this.volume = asked[DRIVE.volume];
    this.endVolume = this.volume;
    this.endTime = asked[DRIVE.time];
    if (drive.release === null) return;
    drive.release.fillBurntShare(asked);
    this.burntShare = asked[DRIVE.burntShare];
  }

  /** Fills the volume at the time that is asked, which is often that of the last span's end. */
  private fillVolume(): void {
    const { drive, asked } = this;
    if (asked[DRIVE.time] === this.endTime) asked[DRIVE.volume] = this.endVolume;
    else drive.fillVolume(asked);
  }

  /** A stage begins over the clock's span. */
  startStage(clock: Clock): void {
    this.clearStreams();
    this.span = clock[CLOCK.span];
    this.askWallHeat(clock);
    this.askEnd(clock);
  }

  /** Heat over the span, at its middle. */
  private askWallHeat(clock: Clock): void {
    const { drive, asked } = this;
    asked[DRIVE.time] = clock[CLOCK.time] + 0.5 * clock[CLOCK.span];
    this.fillVolume();
    asked[DRIVE.pressure] = this.pressure;
    asked[DRIVE.temperature] = this.meanTemperature;
    asked[DRIVE.density] = this.mass() / this.volume;
    drive.fillWallHeat(asked);
    this.spanHeat = asked[DRIVE.wallHeat] * this.span;
  }

  /** Volume at the span's end, and what burns over it. */
  private askEnd(clock: Clock): void {
    const { drive, asked } = this;
    asked[DRIVE.time] = clock[CLOCK.time] + clock[CLOCK.span];
    drive.fillVolume(asked);
    this.endVolume = asked[DRIVE.volume];
    this.endTime = asked[DRIVE.time];
    if (drive.release === null) return;
    drive.release.fillBurntShare(asked);
    this.burning = asked[DRIVE.burntShare] - this.burntShare;
  }
}
