/**
 * The plain case (`plain.yaml`), for this case alone, with the project's generator keyed by purpose for every draw, and a table of
 * quantiles for each time and lifetime: what common random numbers allow at most in JavaScript, roughly.
 * usage: node plain_keyed.js CAMPAIGNS SEED
 */
import { cbrt, erfcinv, exp, ln, log1p, pow } from '../../dist/chance/elementary.js';
import { threefry4x32, threefryKey } from '../../dist/chance/threefry.js';

const [CAMPAIGNS, SEED] = process.argv.slice(2).map(Number);
const key = threefryKey(SEED, 2, 3, 4);
const block = new Int32Array(4);
let replication = 0;

function uniform(purpose, kind, index, count) {
  threefry4x32(key, purpose | (kind << 16), index, count, replication, block);
  return ((block[0] >>> 6) * 0x4000000 + (block[1] >>> 6)) * 2.220446049250313e-16 + 1.1102230246251565e-16;
}

const OCTAVES = 24;
const CELLS = 64;
const double = new Float64Array(1);
const bits = new Int32Array(double.buffer);

/** A quantile function as cubics, 64 an octave of the smaller of u and 1 - u; beyond them itself. */
function tableOf(quantile) {
  const sides = [(x) => quantile(x), (x) => quantile(1 - x)].map((at) => {
    const cubics = new Float64Array(4 * OCTAVES * CELLS);
    for (let cell = 0; cell < OCTAVES * CELLS; cell += 1) {
      const width = 2 ** -(Math.floor(cell / CELLS) + 2) / CELLS;
      const from = (CELLS + (cell % CELLS)) * width;
      const [a, b, c, d] = [0, 1, 2, 3].map((third) => at(from + (third * width) / 3));
      cubics.set(
        [
          a,
          (-11 * a + 18 * b - 9 * c + 2 * d) / 2,
          (9 * (2 * a - 5 * b + 4 * c - d)) / 2,
          (9 * (d - 3 * c + 3 * b - a)) / 2,
        ],
        4 * cell,
      );
    }
    return cubics;
  });
  const [below, above] = sides;
  return (u) => {
    double[0] = u > 0.5 ? 1 - u : u;
    const high = bits[1];
    const octave = 1021 - (high >>> 20);
    if (octave < 0 || octave >= OCTAVES) return quantile(u);
    const at = 4 * (octave * CELLS + ((high >>> 14) & 63));
    const t = ((high & 0x3fff) * 4294967296 + (bits[0] >>> 0)) / 70368744177664;
    const cubics = u > 0.5 ? above : below;
    return cubics[at] + t * (cubics[at + 1] + t * (cubics[at + 2] + t * cubics[at + 3]));
  };
}

const REGIONS = 60;
const PASSES = 3;
const IMAGES = REGIONS * PASSES;
const ATTEMPTS = 4;
const SCAN = 256;
const ACCEPT = 0.8 - 1e-12;
const [EXCHANGE, ALIGN, RESONANCE, APPROACH, RELOCATE, SETTLE, LOCATE] = [0, 1, 2, 3, 4, 5, 6];
const [BREAKAGE, FOULING, STEP, SUCCESS, REVIEW, CHECK] = [1, 2, 3, 4, 5, 6];

const times = [
  [180, 300],
  [90, 180],
  [60, 120],
  [90, 150],
  [180, 480],
  [120, 240],
  [240, 540],
].map(([median, p90]) => {
  const sigma = ln(p90 / median) / 1.2815515655446004;
  return tableOf((u) => median * exp(-sigma * Math.SQRT2 * erfcinv(2 * u)));
});
const breakage = tableOf((u) => 25 * pow(cbrt(-log1p(-u)), 2));
const fouling = tableOf((u) => -15 * log1p(-u));
const clearing = tableOf((u) => -4 * log1p(-u));

const occurrences = new Int32Array(7);
const attempts = new Int32Array(IMAGES);
const keptTip = new Int32Array(IMAGES);
const kept = new Float64Array(IMAGES);
const isRepeat = new Uint8Array(IMAGES);
const isVisited = new Uint8Array(REGIONS);
const todo = new Int32Array(IMAGES);
const suspects = new Int32Array(IMAGES);
/** In a typed array numbers that change all the time are no objects: the clock, and images until breakage and the next fouling or clearing. */
const state = new Float64Array(3);
const [NOW, BREAKS, FOULS] = [0, 1, 2];
let tip = 0;
let events = 0;
let isFouled = false;
let doneSinceCheck = 0;
let doubtful = 0;
const sums = Array.from({ length: 5 }, () => ({ sum: 0, squares: 0 }));

function newTip() {
  tip += 1;
  events = 0;
  isFouled = false;
  doneSinceCheck = 0;
  doubtful = 0;
  state[BREAKS] = breakage(uniform(BREAKAGE, 0, tip, 0));
  state[FOULS] = fouling(uniform(FOULING, 0, tip, 0));
}

function step(name) {
  state[NOW] += times[name](uniform(STEP, name, occurrences[name], 0));
  occurrences[name] += 1;
}

/** Quality of one scan: its share before breakage, by fouling. */
function scan() {
  const whole = Math.max(0, Math.min(1, state[BREAKS]));
  let quality = 0;
  let at = 0;
  while (at < 1) {
    const next = Math.min(1, at + state[FOULS]);
    quality += Math.max(0, Math.min(next, whole) - at) * (isFouled ? 0.4 : 1);
    state[FOULS] -= next - at;
    at = next;
    if (at < 1) {
      events += 1;
      isFouled = !isFouled;
      state[FOULS] = (isFouled ? clearing : fouling)(uniform(FOULING, 0, tip, events));
    }
  }
  state[BREAKS] -= 1;
  state[NOW] += SCAN + 20;
  doneSinceCheck += 1;
  return quality;
}

/** Brings a fit tip to a region. */
function prepare(region, current, isFlagged) {
  if (isFlagged) {
    step(EXCHANGE);
    newTip();
    step(ALIGN);
    step(RESONANCE);
  }
  if (isFlagged || region !== current) {
    if (isVisited[region] === 0) step(LOCATE);
    step(APPROACH);
    if (isVisited[region] === 1) {
      for (;;) {
        step(RELOCATE);
        if (uniform(SUCCESS, RELOCATE, occurrences[RELOCATE], 0) < 0.9) break;
      }
    }
    isVisited[region] = 1;
  }
  if (isFlagged) step(SETTLE);
}

function campaign() {
  replication += 1;
  for (const list of [occurrences, attempts, isRepeat, isVisited]) list.fill(0);
  kept.fill(-1);
  for (let i = 0; i < IMAGES; i += 1) todo[i] = i;
  state[NOW] = 0;
  tip = 0;
  newTip();
  let [next, end, region, checks, scans, isFlagged] = [0, IMAGES, -1, 0, 0, false];
  for (;;) {
    if (next === end) {
      next = end = 0;
      for (let i = 0; i < IMAGES; i += 1) if (isRepeat[i] === 1) todo[end++] = i;
      isRepeat.fill(0);
      if (end === 0) break;
    }
    const image = todo[next];
    const due = Math.floor(image / PASSES);
    prepare(due, region, isFlagged);
    region = due;
    const quality = scan();
    scans += 1;
    isFlagged = uniform(REVIEW, 0, image, attempts[image]) < (quality < ACCEPT ? 0.9 : 0.02);
    attempts[image] += 1;
    if (isFlagged) {
      if (attempts[image] >= ATTEMPTS) next += 1;
      continue;
    }
    kept[image] = quality;
    keptTip[image] = tip;
    next += 1;
    suspects[doubtful++] = image;
    if (doneSinceCheck < 10) continue;
    state[NOW] += 120;
    doneSinceCheck = 0;
    isFlagged = uniform(CHECK, 0, tip, checks++) < (state[BREAKS] <= 0 || isFouled ? 0.95 : 0.02);
    for (let k = isFlagged ? doubtful - 1 : -1; k >= 0; k -= 1) {
      const image = suspects[k];
      if (keptTip[image] !== tip || isRepeat[image] === 1 || attempts[image] >= ATTEMPTS) continue;
      if (Math.floor(image / PASSES) === region) todo[--next] = image;
      else isRepeat[image] = 1;
    }
    doubtful = 0;
  }
  let [gained, bad] = [0, 0];
  for (const quality of kept) {
    if (quality >= ACCEPT) gained += quality;
    else if (quality >= 0) bad += 1;
  }
  return [state[NOW] / 3600, gained / IMAGES, tip, scans, bad / IMAGES];
}

for (let i = 0; i < 3000; i += 1) campaign();
const start = performance.now();
const cpu = process.cpuUsage();
for (let i = 0; i < CAMPAIGNS; i += 1)
  campaign().forEach((value, measure) => {
    sums[measure].sum += value;
    sums[measure].squares += value * value;
  });
const seconds = { user: process.cpuUsage(cpu).user / 1e6, wall: (performance.now() - start) / 1000 };
const names = ['totalTime', 'yield', 'tips', 'takes', 'undetectedBadShare'];
const means = names.map((name, i) => {
  const mean = sums[i].sum / CAMPAIGNS;
  return [name, { mean, standardError: Math.sqrt((sums[i].squares / CAMPAIGNS - mean * mean) / (CAMPAIGNS - 1)) }];
});
console.log(JSON.stringify({ campaigns: CAMPAIGNS, seconds, means: Object.fromEntries(means) }));
