import { ewmaLimit } from './controlRules.ts';
import { solveLinear } from './linearSystem.ts';
import { normalTail } from './probabilities.ts';

/** Nodes of the quadrature; the kernels are smooth, and 80 nodes change no digit of six against 160 … */
const usualNodes = 80;
/** … but a kernel that is narrow against its range falls between them: so many for each of its SD. */
const nodesPerSd = 2;

/**
 * Mean runs until an EWMA of z (mean `shiftSd`, SD 1) from 0 leaves its bound on either side.
 * L(u) = 1 + ∫ L(y) φ((y − (1 − λ)u)/λ − shift)/λ dy over the bound, solved at Gauss–Legendre nodes.
 * Source: Crowder, Technometrics 29 (1987), 401–407.
 */
export function ewmaRunLength(ewma: { lambda: number; limit: number }, shiftSd: number): number {
  const { lambda } = ewma;
  const bound = ewmaLimit(ewma);
  const nodeCount = Math.max(usualNodes, Math.ceil((2 * bound * nodesPerSd) / lambda));
  const { nodes, weights } = gaussLegendre(nodeCount, -bound, bound);
  const kernel = (from: number, to: number) =>
    density((to - (1 - lambda) * from) / lambda - shiftSd) / lambda;
  const lengths = solveNodes(nodes, weights, kernel);
  return 1 + integral(weights, (k) => kernel(0, nodes[k] ?? 0) * (lengths[k] ?? 0));
}

/**
 * Mean runs until either sum of a CUSUM of z (mean `shiftSd`, SD 1) from 0 exceeds its decision: 1/L = 1/L⁺ + 1/L⁻.
 * Source: one side, Page, Biometrika 41 (1954), 100–115; both, Kemp, JRSS B 23 (1961), 149–153.
 */
export function cusumRunLength(cusum: { slack: number; decision: number }, shiftSd: number): number {
  const upper = oneSidedCusum(cusum, shiftSd);
  const lower = oneSidedCusum(cusum, -shiftSd);
  return 1 / (1 / upper + 1 / lower);
}

/** L(u) = 1 + L(0) Φ(k − u − shift) + ∫₀ʰ L(y) φ(y + k − u − shift) dy. */
function oneSidedCusum({ slack, decision }: { slack: number; decision: number }, shiftSd: number): number {
  const { nodes, weights } = gaussLegendre(usualNodes, 0, decision);
  // L(0) is one more unknown: the sum stays at 0 with a probability of its own.
  const kernel = (from: number, to: number) => density(to + slack - from - shiftSd);
  const stays = (from: number) => normalTail(from + shiftSd - slack);
  // It never leaves 0, to the last digit of a probability: the equations would be singular, or nearly.
  if (1 - stays(0) < 1e-15) return Number.POSITIVE_INFINITY;
  const points = [0, ...nodes];
  const matrix = points.map((from, row) =>
    Float64Array.from(points, (to, column) => {
      const moves = column === 0 ? stays(from) : (weights[column - 1] ?? 0) * kernel(from, to);
      return (row === column ? 1 : 0) - moves;
    }),
  );
  const runs = solveLinear(matrix, new Float64Array(points.length).fill(1))[0] ?? Number.NaN;
  // Of a sum that hardly ever gets there rounding leaves no more than that.
  return runs >= 1 ? runs : Number.POSITIVE_INFINITY;
}

function solveNodes(
  nodes: readonly number[],
  weights: readonly number[],
  kernel: (from: number, to: number) => number,
): Float64Array {
  const matrix = nodes.map((from, row) =>
    Float64Array.from(
      nodes,
      (to, column) => (row === column ? 1 : 0) - (weights[column] ?? 0) * kernel(from, to),
    ),
  );
  return solveLinear(matrix, new Float64Array(nodes.length).fill(1));
}

function integral(weights: readonly number[], valueAt: (index: number) => number): number {
  return weights.reduce((sum, weight, index) => sum + weight * valueAt(index), 0);
}

function density(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/** Nodes and weights on [from, to]. Source: Legendre's recurrence and Newton's method, DLMF 3.5.18 and 18.9.1. */
export function gaussLegendre(
  count: number,
  from: number,
  to: number,
): { nodes: number[]; weights: number[] } {
  const half = (to - from) / 2;
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let index = 0; index < count; index += 1) {
    let x = -Math.cos((Math.PI * (index + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let iteration = 0; iteration < 50; iteration += 1) {
      let previous = 0;
      let current = 1;
      for (let degree = 1; degree <= count; degree += 1) {
        const next = ((2 * degree - 1) * x * current - (degree - 1) * previous) / degree;
        previous = current;
        current = next;
      }
      slope = (count * (x * current - previous)) / (x * x - 1);
      const change = current / slope;
      x -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    nodes.push(from + half * (x + 1));
    weights.push((2 * half) / ((1 - x * x) * slope * slope));
  }
  return { nodes, weights };
}
