import { CANDIDATE_COLOURS } from '@shaftwork/report/figures/palette';
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
