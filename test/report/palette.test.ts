import { CANDIDATE_COLOURS } from '@shaftwork/report/drawing/palette';
import { styleSheet } from '@shaftwork/report/page/styles';
import { expect, test } from 'vitest';

/** Relative luminance and contrast: W3C, Web Content Accessibility Guidelines 2.2, definitions "relative luminance" and "contrast ratio". */
function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}
const contrast = (a: string, b: string): number => {
  const [light, dark] = [luminance(a), luminance(b)].sort((one, other) => other - one);
  return (light! + 0.05) / (dark! + 0.05);
};
const papers = Array.from(styleSheet('x').matchAll(/--paper:(#[0-9a-f]{6})/g), ([, paper]) => paper!);

test('contrast of black on white is 21 (definition)', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
});

test.each(CANDIDATE_COLOURS.map((colours, index) => [index + 1, colours] as const))(
  'text in colour %d reaches 4.5 : 1 on its paper',
  (_, { light, dark }) => {
    expect(papers).toHaveLength(2);
    expect(contrast(light, papers[0]!)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(dark, papers[1]!)).toBeGreaterThanOrEqual(4.5);
  },
);

test('no two candidates share a dash', () => {
  expect(new Set(CANDIDATE_COLOURS.map(({ dash }) => dash.join(' '))).size).toBe(CANDIDATE_COLOURS.length);
});

/**
 * Colour blindness of full severity as a matrix on linear RGB: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based
 * Model for Simulation of Color Vision Deficiency", IEEE Trans. Visualization and Computer Graphics 15 (2009) 1291, table 1, severity 1.0 (from memory).
 */
const BLINDNESS: Readonly<Record<string, readonly (readonly number[])[]>> = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};
const linear = (colour: string): number[] =>
  [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
const times = (matrix: readonly (readonly number[])[], vector: readonly number[]): number[] =>
  matrix.map((row) => row.reduce((sum, factor, index) => sum + factor * vector[index]!, 0));
/** CIE 1976 L*a*b* from linear sRGB, white D65 (CIE 15; IEC 61966-2-1). */
function lab(rgb: readonly number[]): number[] {
  const [x, y, z] = times(
    [
      [0.4124, 0.3576, 0.1805],
      [0.2126, 0.7152, 0.0722],
      [0.0193, 0.1192, 0.9505],
    ],
    rgb,
  );
  const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : (t * 24389) / 27 / 116 + 16 / 116);
  const [fx, fy, fz] = [f(x! / 0.9505), f(y!), f(z! / 1.089)];
  return [116 * fy! - 16, 500 * (fx! - fy!), 200 * (fy! - fz!)];
}
const distance = (a: readonly number[], b: readonly number[]): number => Math.hypot(...a.map((value, index) => value - b[index]!));

test.each(Object.entries(BLINDNESS))(
  'the first three candidates, nearly every report, stay apart under %s, in the light and in the dark',
  (_, matrix) => {
    for (const theme of ['light', 'dark'] as const) {
      const seen = CANDIDATE_COLOURS.slice(0, 3).map((colour) =>
        lab(times(matrix, linear(colour[theme])).map((value) => Math.min(1, Math.max(0, value)))),
      );
      // 2.3 is a just noticeable difference; lines of two pixels need several.
      for (const [a, b] of [
        [0, 1],
        [0, 2],
        [1, 2],
      ] as const)
        expect(distance(seen[a]!, seen[b]!), `${theme} ${a + 1} and ${b + 1}`).toBeGreaterThan(8);
    }
  },
);

test('from the fifth candidate on every colour stands apart from all before it, to whatever eyes', () => {
  const unseen = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  for (const matrix of [unseen, ...Object.values(BLINDNESS)]) {
    for (const theme of ['light', 'dark'] as const) {
      const seen = CANDIDATE_COLOURS.map((colour) =>
        lab(times(matrix, linear(colour[theme])).map((value) => Math.min(1, Math.max(0, value)))),
      );
      for (let later = 4; later < seen.length; later++)
        for (let earlier = 0; earlier < later; earlier++)
          expect(distance(seen[later]!, seen[earlier]!), `${theme} ${later + 1} and ${earlier + 1}`).toBeGreaterThan(15);
    }
  }
});

test('on grey paper every candidate stands off the paper, and dashes tell them apart', () => {
  for (const { light } of CANDIDATE_COLOURS) expect(lab(linear('#ffffff'))[0]! - lab(linear(light))[0]!).toBeGreaterThan(40);
});
