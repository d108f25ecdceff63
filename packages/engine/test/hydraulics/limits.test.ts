import { describe, expect, it } from 'vitest';
import {
  checkDeviceFlow,
  checkPressureVelocity,
  checkSuctionVelocity,
  checkTurnover,
  turnoverHours,
} from '../../src/hydraulics/limits';
import { DomainError } from '../../src/numeric/errors';

describe('limits that are flagged', () => {
  it('holds velocities against 6 and 8 ft/s, either direction', () => {
    // verified: 6 ft/s = 1.8288 m/s, 8 ft/s = 2.4384 m/s
    expect(checkSuctionVelocity(1.83).exceeded).toBe(true);
    expect(checkSuctionVelocity(1.83).limit).toBeCloseTo(1.8288, 12);
    expect(checkSuctionVelocity(-1.83).exceeded).toBe(true);
    expect(checkSuctionVelocity(1.828).exceeded).toBe(false);
    expect(checkPressureVelocity(2.44).exceeded).toBe(true);
    expect(checkPressureVelocity(2.43).margin).toBeCloseTo(0.0084, 12);
  });

  it('asks for at least a flow, and at most a turnover', () => {
    expect(checkDeviceFlow(0.001, 0.0012)).toMatchObject({ exceeded: true, limit: 0.0012 });
    expect(checkDeviceFlow(0.0013, 0.0012).exceeded).toBe(false);
    expect(turnoverHours(36, 0.001)).toBeCloseTo(10, 12);
    expect(checkTurnover(36, 0.001, 9).exceeded).toBe(true);
    expect(checkTurnover(36, 0.001, 12).exceeded).toBe(false);
    expect(checkTurnover(36, 0, 12)).toMatchObject({ exceeded: true, value: Infinity });
  });

  it('refuses NaN', () => {
    for (const call of [
      () => checkSuctionVelocity(Number.NaN),
      () => checkPressureVelocity(Infinity),
      () => checkDeviceFlow(Number.NaN, 0),
      () => checkDeviceFlow(0, Number.NaN),
      () => checkTurnover(1, 1, 0),
      () => turnoverHours(0, 1),
      () => turnoverHours(1, Number.NaN),
    ])
      expect(call).toThrow(DomainError);
  });
});
