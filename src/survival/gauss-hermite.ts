/** Nodes and weights of five-point Gauss-Hermite quadrature (Abramowitz and Stegun, table 25.10). */
export const NODES = [
  { at: -2.0201828704560856, weight: 0.01995324205904591 },
  { at: -0.9585724646138185, weight: 0.3936193231522412 },
  { at: 0, weight: 0.9453087204829419 },
  { at: 0.9585724646138185, weight: 0.3936193231522412 },
  { at: 2.0201828704560856, weight: 0.01995324205904591 },
];

/** ln √(2π). */
export const LN_SQRT_TWO_PI = 0.9189385332046728;
