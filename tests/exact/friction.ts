/**
 * Friction factors of turbulent pipe flow. Darcy's factor f_D here; Fanning's is a quarter of it.
 *
 *   Colebrook: 1/sqrt(f_D) = -2 log10( e/(3.7 D) + 2.51/(Re sqrt(f_D)) ),  iterated
 *   Haaland:   1/sqrt(f_D) = -1.8 log10( (e/(3.7 D))^1.11 + 6.9/Re )
 *   Blasius, smooth: f_D = 0.3164 Re^(-1/4)  (Fanning 0.0791 Re^(-1/4))
 *
 * Source: C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133; S. E. Haaland, J. Fluids Eng. 105 (1983) 89; H. Blasius (1913);
 * from memory.
 */

/** Darcy's factor by Colebrook; `roughness` is e/D [-]. */
export function colebrook(reynolds: number, roughness: number): number {
  let y = 1 / Math.sqrt(haaland(reynolds, roughness));
  // y = -2 log10(a + b y): Newton's method, at home within a few steps from Haaland's value.
  const a = roughness / 3.7;
  const b = 2.51 / reynolds;
  for (let iteration = 0; iteration < 50; iteration += 1) {
    const inner = a + b * y;
    const next = y - (y + 2 * Math.log10(inner)) / (1 + (2 * b) / (inner * Math.LN10));
    if (Math.abs(next - y) <= 4 * Number.EPSILON * y) return 1 / (next * next);
    y = next;
  }
  return 1 / (y * y);
}

/** Darcy's factor by Haaland; `roughness` is e/D [-]. */
export function haaland(reynolds: number, roughness: number): number {
  return 1 / (1.8 * Math.log10((roughness / 3.7) ** 1.11 + 6.9 / reynolds)) ** 2;
}

/** Darcy's factor of a smooth pipe by Blasius [-]. */
export function blasius(reynolds: number): number {
  return 0.3164 * reynolds ** -0.25;
}

/** Friction force per mass, G = (4f/D) u|u|/2 with Fanning's f [m/s2]. */
export function frictionPerMass(fanning: number, diameter: number, velocity: number): number {
  return (2 * fanning * velocity * Math.abs(velocity)) / diameter;
}
