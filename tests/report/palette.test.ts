import { describe, expect, it } from 'vitest';
import {
  ACTIVITY_TONES,
  NEUTRALS,
  QUALITY_TONES,
  STRATEGY_TONES,
  TIP_STATE_TONES,
  customProperties,
  type Tone,
} from '../../src/report/palette.js';
import { nonEmpty } from '../support/non-empty.js';

/** sRGB to linear light, IEC 61966-2-1. */
function linear(hex: string): [number, number, number] {
  const part = (at: number): number => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [part(1), part(3), part(5)];
}

/** Contrast ratio of WCAG 2.2, relative luminance by the formula there. */
function contrast(a: string, b: string): number {
  const light = (hex: string): number => {
    const [red, green, blue] = linear(hex);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [low, high] = [light(a), light(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

/**
 * Normal sight, then dichromats: Machado, Oliveira & Fernandes, IEEE Trans. Vis. Comput. Graph. 15, 1291 (2009),
 * severity 1 (protan, deutan, tritan); the numbers are from memory.
 */
const SIGHTS = [
  [1, 0, 0, 0, 1, 0, 0, 0, 1],
  [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
  [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
];

/** OKLab, after Ottosson (2020), of a colour as this sight has it. */
function seen(hex: string, sight: readonly number[]): [number, number, number] {
  const from = linear(hex);
  const [red, green, blue] = [0, 1, 2].map((row) =>
    Math.min(1, Math.max(0, sight[3 * row] * from[0] + sight[3 * row + 1] * from[1] + sight[3 * row + 2] * from[2])),
  );
  const l = Math.cbrt(0.4122214708 * red + 0.5363325363 * green + 0.0514459929 * blue);
  const m = Math.cbrt(0.2119034982 * red + 0.6806995451 * green + 0.1073969566 * blue);
  const s = Math.cbrt(0.0883024619 * red + 0.2817188376 * green + 0.6299787005 * blue);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

/** Least difference of two colours over all sights, in hundredths of OKLab. */
function difference(a: string, b: string): number {
  return Math.min(
    ...SIGHTS.map((sight) => {
      const [x, y] = [seen(a, sight), seen(b, sight)];
      return 100 * Math.hypot(x[0] - y[0], x[1] - y[1], x[2] - y[2]);
    }),
  );
}

function least(colours: readonly string[], apart = colours.length): number {
  let smallest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < colours.length; i += 1) {
    for (let j = i + 1; j < Math.min(colours.length, i + 1 + apart); j += 1) {
      smallest = Math.min(smallest, difference(colours[i], colours[j]));
    }
  }
  return smallest;
}

describe.each(['light', 'dark'] as const)('the palette in %s', (mode) => {
  const of = (tones: readonly Tone[]): string[] => tones.map((tone) => tone[mode]);
  const paper = NEUTRALS.paper[mode];

  it('keeps text at 4.5:1 or more on everything that it stands on', () => {
    for (const ground of [paper, NEUTRALS.raised[mode], NEUTRALS.warnpaper[mode]]) {
      for (const text of [NEUTRALS.ink, NEUTRALS.soft, NEUTRALS.accent, NEUTRALS.warn]) {
        expect(contrast(text[mode], ground)).toBeGreaterThanOrEqual(4.5);
      }
    }
  });

  it('keeps every strategy at 3:1 or more against the page', () => {
    for (const colour of nonEmpty(of(STRATEGY_TONES))) expect(contrast(colour, paper)).toBeGreaterThanOrEqual(3);
  });

  it('tells strategies apart in every colour vision', () => {
    expect(least(of(STRATEGY_TONES))).toBeGreaterThanOrEqual(10);
    expect(least(of(STRATEGY_TONES).slice(0, 3))).toBeGreaterThanOrEqual(18);
  });

  it('tells activities apart in every colour vision, those that often touch best', () => {
    const colours = of(Object.values(ACTIVITY_TONES));
    expect(least(colours)).toBeGreaterThanOrEqual(6.5);
    expect(least(colours, 2)).toBeGreaterThanOrEqual(8.5);
    expect(difference(colours[0], colours[1])).toBeGreaterThanOrEqual(20);
  });

  it('tells states of a tip apart in every colour vision', () => {
    expect(least(of(Object.values(TIP_STATE_TONES)))).toBeGreaterThanOrEqual(13);
  });

  it('keeps what is wrong with a tip at 3:1 or more against the page', () => {
    const [, ...spoiled] = of(Object.values(TIP_STATE_TONES));
    for (const colour of nonEmpty(spoiled)) expect(contrast(colour, paper)).toBeGreaterThanOrEqual(3);
  });

  it('makes worse quality stand out more from the page, step by step', () => {
    const contrasts = of(QUALITY_TONES).map((colour) => contrast(colour, paper));
    expect(contrasts).toEqual([...contrasts].sort((a, b) => b - a));
    expect(least(of(QUALITY_TONES), 1)).toBeGreaterThanOrEqual(8);
  });
});

it('has no light colour under two names, so that a page can exchange colours for names', () => {
  const light = [...customProperties().values()].map((tone) => tone.light);
  expect(new Set(light).size).toBe(light.length);
});
