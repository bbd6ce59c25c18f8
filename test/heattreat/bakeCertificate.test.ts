import { describe, expect, it } from 'vitest';
import { bakeCertificate } from '../../lib/heattreat';

const WHOLE = {
  lot: 'HB-07',
  set: '390F',
  metal: '385F',
  metalPlaces: 2,
  time: '20min',
  counted: 'at metal temperature',
  oven: 'class 5',
  bakes: 1,
  signed: 'oven 2',
} as const;

describe('a certificate without a chart', () => {
  it('vouches for a heat, and for no more', () => {
    const { heat, oven, asks, because } = bakeCertificate(WHOLE, 'hb 07');
    expect(heat).toMatchObject({ timeS: 1200, times: 1, counted: 'at metal temperature' });
    expect(oven).toBe('class 5');
    expect(asks).toEqual([]);
    expect(because.join(' ')).toMatch(/2 places.*nothing hotter/);
  });
  it('with a set point only says so, and asks for the metal', () => {
    const { heat, asks, because } = bakeCertificate({ lot: 'HB-07', set: '390F', time: '20min' }, 'HB-07');
    expect(heat).toMatchObject({ counted: 'from the door' });
    expect(asks.join(' ')).toMatch(/How hot was the metal.*surveyed.*How many bakes/);
    expect(because.join(' ')).toMatch(/set point, not the metal/);
  });
  it('without a temperature concludes nothing', () =>
    expect(bakeCertificate({ lot: 'HB-07', time: '20min' }, 'HB-07')).not.toHaveProperty('heat'));
  it.each([
    [{ ...WHOLE, lot: 'HB-08' }, /another lot.*"HB-08".*"HB-07".*ask for/],
    [{ set: '390F', time: '20min' }, /names no lot/],
    [{ ...WHOLE, metal: '385' }, /not a temperature/],
    [{ ...WHOLE, colour: 'red' }, /colour/],
  ])('refuses %j', (certificate, message) =>
    expect(() => bakeCertificate(certificate, 'HB-07')).toThrow(message),
  );
});
