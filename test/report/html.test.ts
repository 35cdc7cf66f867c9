import { looksOf } from '@shaftwork/report/drawing/palette';
import { cssString } from '@shaftwork/report/html/css-text';
import { html, trusted } from '@shaftwork/report/html/html';
import { withNames } from '@shaftwork/report/page/report-view';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';

test('what people wrote is escaped, markup of our own is not', () => {
  expect(html`<b title="${'"x" & \'y\''}">${'<script>'}</b>${trusted('<i>ok</i>')}`.html).toBe(
    '<b title="&quot;x&quot; &amp; &#39;y&#39;">&lt;script&gt;</b><i>ok</i>',
  );
});

test('lists are joined, nothing is left out of nothing, zero is a number', () => {
  expect(html`${['a', html`<br>`, undefined, false, 0]}`.html).toBe('a<br>0');
});

test('control characters do not reach the page', () => {
  expect(html`${'a\u0000b\u0008c\u009fd\ne'}`.html).toBe('a\ufffdb\ufffdc\ufffdd\ne');
});

test('a CSS string holds any text', () => {
  expect(cssString('a"b\\c</style>')).toBe('"a\\000022b\\00005cc\\00003c\\00002fstyle\\00003e"');
  // A blank after a number would be taken for its end.
  expect(cssString('boat, three')).toBe('"boat\\00002c\\000020three"');
});

test('names are coloured as whole words only, the longer one first, and stay escaped', () => {
  const looks = looksOf(sampleResult({ names: ['Long', 'Long arm', '<b>'] }).candidates);
  expect(withNames('Longer is not Long, Long arm beats <b>.', looks).html).toBe(
    'Longer is not <span class="k1">Long</span>, <span class="k2">Long arm</span> beats <span class="k3">&lt;b&gt;</span>.',
  );
});
