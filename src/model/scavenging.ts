/** How fresh charge drives out what is in the cylinder: one of several laws. */

export type Scavenging =
  /** Displacement until `mixingVolume` of the cylinder is left, then mixing with that; `shortCircuit` of the stream crosses [-]. */
  | { readonly by: 'twoZone'; readonly mixingVolume: number; readonly shortCircuit: number }
  /** Of the stream `shortCircuit` crosses, `displacement` of the rest displaces, the rest of it mixes [-]. */
  | { readonly by: 'threeWay'; readonly displacement: number; readonly shortCircuit: number }
  /** Scavenging efficiency over scavenge ratio, both growing [-]. */
  | {
      readonly by: 'table';
      readonly points: readonly { readonly scavengeRatio: number; readonly efficiency: number }[];
    };
