import { expect, test } from 'vitest';
import { cloudFromShare, cloudTransmission, skyNow } from '../../src/sun/sky-now';

const at = (said: 'clear' | 'hazy' | 'overcast' | number, zenith = 35) =>
  skyNow(said, zenith, 300, 97_800, 1370);

test('clear is brighter than hazy, hazy than overcast; haze moves direct into diffuse', () => {
  expect(at('clear').globalHorizontal_Wm2).toBeGreaterThan(at('hazy').globalHorizontal_Wm2);
  expect(at('hazy').globalHorizontal_Wm2).toBeGreaterThan(at('overcast').globalHorizontal_Wm2);
  expect(at('hazy').diffuseHorizontal_Wm2).toBeGreaterThan(at('clear').diffuseHorizontal_Wm2);
  expect(at('overcast').directNormal_Wm2).toBe(0);
});
test('a reading is kept as read, and its cloud judged by the clear sky', () => {
  expect(at(600).globalHorizontal_Wm2).toBe(600);
  expect(at(at('clear').globalHorizontal_Wm2).cloud).toBe(0);
  expect(at(200).cloud).toBeGreaterThan(0.9);
  expect(() => at(Number.NaN)).toThrow(RangeError);
  expect(() => at(-1)).toThrow(RangeError);
});
test('night is dark and finite', () => {
  for (const said of ['clear', 'hazy', 'overcast', 0] as const) {
    const s = at(said, 100);
    expect(s.globalHorizontal_Wm2).toBe(0);
    expect(Number.isFinite(s.cloud)).toBe(true);
  }
});
test('the cloud formula and its inverse are one', () => {
  for (const n of [0, 0.2, 0.5, 0.8, 1]) expect(cloudFromShare(cloudTransmission(n))).toBeCloseTo(n, 12);
});
