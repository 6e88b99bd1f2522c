// What Lighthouse holds to be right does not depend on how busy the machine is. Performance does, and is only printed, by
// ./dev bench.
import assert from 'node:assert/strict';
import { it } from 'node:test';
import { review } from './lib/lighthouse.mjs';

it('is accessible, well made and findable for Lighthouse', async () => {
  const { scores, failing } = await review(['accessibility', 'best-practices', 'seo']);
  assert.deepEqual(failing, []);
  assert.deepEqual(scores, { accessibility: 100, 'best-practices': 100, seo: 100 });
});
