import { describe, expect, it } from 'vitest';
import { finishPage, formatStress, formatTemp, inUsUnits } from '../../lib/quantity';
import { fc } from '../setup/fc';

describe('inUsUnits', () => {
  // Exact factors: 1 in = 25.4 mm (international inch), 1 lb = 0.45359237 kg, 1 lbf = 4.4482216152605 N.
  it.each([
    ['under 227 °C (440 °F)', 'under 440 °F (227 °C)'],
    ['hottest 540.7 °C<br>(1005.3 °F)', 'hottest 1005.3 °F<br>(540.7 °C)'],
    ['between 270 and 330 °C (518 and 626 °F)', 'between 518 and 626 °F (270 and 330 °C)'],
    ['aged 5 h at 155-175 °C', 'aged 5 h at 311-347 °F (155-175 °C)'],
    ['good to ±2.5 °C', 'good to ±4.5 °F (±2.5 °C)'],
    ['too hot (555 °C)', 'too hot (1031 °F, 555 °C)'],
    ['warms by 39 °C (70 °F)', 'warms by 70 °F (39 °C)'],
    ['yields at 276 MPa (40.0 ksi)', 'yields at 40.0 ksi (276 MPa)'],
    ['191 MPa or more', '27.7 ksi (191 MPa) or more'],
    ['207 MPa (191 to 220)', '30.0 ksi (27.7 to 31.9; 207 MPa)'],
    ['190\u00a0MPa (161–215)', '27.6 ksi (23.4–31.2; 190 MPa)'],
    ['from 25.4 to 50.8 mm', 'from 1.000 to 2.000 in (25.4 to 50.8 mm)'],
    ['at 12, 20 and 25 mm', 'at 0.47, 0.79 and 0.98 in (12, 20 and 25 mm)'],
    ['in 95 of 100, 12 mm', 'in 95 of 100, 0.47 in (12 mm)'],
    ['TC1, at x 10, y 20 mm of the plan', 'TC1, at x 0.39, y 0.79 in (x 10, y 20 mm) of the plan'],
    ['(3 mm wall)', '(0.12 in, 3 mm wall)'],
    ['12.3 kN', '2770 lbf (12.3 kN)'],
    ['1.356 kN m', '1000 ft·lb (1.356 kN m)'],
    ['1.45 kg/m', '0.97 lb/ft (1.45 kg/m)'],
    ['holds ± 5.5 °C (9.9 °F)', 'holds ± 9.9 °F (5.5 °C)'],
    ['cools at 0.5 °C/s', 'cools at 0.9 °F/s (0.5 °C/s)'],
  ])('%s', (si, us) => {
    expect(inUsUnits(si)).toBe(us);
    expect(inUsUnits(us)).toBe(us);
  });

  it('leaves names as people gave them, and what is no quantity', () => {
    expect(inUsUnits('TC1 block 12 mm decides at 12 mm', ['TC1 block 12 mm'])).toBe(
      'TC1 block 12 mm decides at 0.47 in (12 mm)',
    );
    for (const text of [
      'A356-T6, HB-07',
      'readings in 0.1 °C',
      '92 % (84–104 %)',
      '81 s',
      '5 W/(m K)',
      '12 mm² of metal',
      '3 mmol',
    ])
      expect(inUsUnits(text)).toBe(text);
  });

  it('turns what formatTemp and formatStress write round, and loses no number', () => {
    fc.assert(
      fc.property(fc.integer({ min: -40, max: 700 }), fc.integer({ min: 1, max: 600 }), (tempC, mpa) => {
        const [c, f] = /(.+) \((.+)\)/.exec(formatTemp(tempC))!.slice(1);
        expect(inUsUnits(formatTemp(tempC))).toBe(`${f} (${c})`);
        const [si, us] = /(.+) \((.+)\)/.exec(formatStress(mpa))!.slice(1);
        expect(inUsUnits(formatStress(mpa))).toBe(`${us} (${si})`);
        expect(inUsUnits(`${mpa} mm`)).toContain(`(${mpa} mm)`);
      }),
    );
  });

  it('changes the texts of a page, not its marks, scripts and styles', () => {
    const page =
      '<style>p{width:12 mm}</style><p title="12 mm">12 mm &lt;</p><script>"12 mm"</script><b>a&amp;b 3 mm</b>';
    expect(finishPage(page, 'us', ['a&b 3 mm']).replace(/<\/?span[^>]*>/g, '')).toBe(
      '<style>p{width:12 mm}.whole { white-space: nowrap; }\n</style><p title="12 mm">0.47 in (12 mm) &lt;</p><script>"12 mm"</script><b>a&amp;b 3 mm</b>',
    );
  });
});
