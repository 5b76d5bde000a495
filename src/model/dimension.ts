/**
 * Kinds of quantity that an input can be. Units and factors belong to the reading of files.
 */

export type Dimension =
  | 'length'
  | 'area'
  | 'volume'
  | 'pressure'
  | 'temperature'
  | 'angle'
  | 'speed'
  | 'velocity'
  | 'time'
  | 'density'
  | 'modulus'
  | 'gasConstant'
  | 'heatingValue'
  | 'heatTransfer'
  | 'frictionPerSpeed'
  | 'power'
  | 'torque';
