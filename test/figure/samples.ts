import type { ChannelVerdict, Verdict } from '../../lib/decision';
import { exactly, type Pass } from '../../lib/exposure';
import { type ThermalHistory, thermalHistory } from '../../lib/history';
import type { Fault, LogChannel, ThermalLog } from '../../lib/log';
import { judged } from '../../lib/quantity';
import type { StrengthTrack, VerdictWord } from '../../lib/strength';

/** Invented job on the foot of a folding mast: three passes and a repair, at half-second rows. */
export const PASS_STARTS_S = [60, 300, 560, 900] as const;
const SPAN_S = 1500;
const STEP_S = 0.5;

/** Rise of a spot at some distance after each pass, on a part that warms up bodily; smooth, so easy to check. */
export function passTrace(riseC: number, delayS: number, spanS = SPAN_S, stepS = STEP_S): ThermalHistory {
  const count = Math.floor(spanS / stepS) + 1;
  const timeS = Float64Array.from({ length: count }, (_, i) => i * stepS);
  const tempC = timeS.map((t) => {
    let temp = 22;
    for (const [k, start] of PASS_STARTS_S.entries()) {
      const dt = t - start;
      if (dt <= 0) continue;
      const local = riseC * (1 + 0.06 * k) * (dt / delayS) * Math.exp(1 - dt / delayS);
      const body = 26 * (1 - Math.exp(-dt / 60)) * Math.exp(-dt / 900);
      temp += local + body;
    }
    return temp;
  });
  return thermalHistory(timeS, tempC);
}

/** The same history without the samples of a stretch, the hole marked as a gap. */
export function withoutStretch(history: ThermalHistory, fromS: number, toS: number): ThermalHistory {
  const keep = [...history.timeS.keys()].filter((i) => history.timeS[i]! < fromS || history.timeS[i]! > toS);
  const before = keep.filter((i) => history.timeS[i]! < fromS).length;
  return thermalHistory(
    keep.map((i) => history.timeS[i]!),
    keep.map((i) => history.tempC[i]!),
    before > 0 && before < keep.length ? [before - 1] : [],
  );
}

export function sampleFault(over: Partial<Fault> & Pick<Fault, 'kind' | 'fromS' | 'toS' | 'column'>): Fault {
  const row = 20 + Math.round(over.fromS / STEP_S);
  return {
    row,
    lastRow: 20 + Math.round(over.toS / STEP_S),
    value: '1832.0',
    readings: 1,
    reason: `The reading stands out from its neighbours and no metal moves so fast.`,
    ...over,
  };
}

const channel = (name: string, history: ThermalHistory, faults: readonly Fault[] = []): LogChannel => ({
  name,
  unit: '°C',
  sourceUnit: '°F',
  history,
  rows: Uint32Array.from(history.timeS, (t) => 20 + Math.round(t / STEP_S)),
  faults,
});

const arcStarts = (column: string): Fault[] =>
  PASS_STARTS_S.map((start) => sampleFault({ kind: 'spike', fromS: start + 1, toS: start + 1, column }));

const tc3 = () => {
  const whole = passTrace(118, 22);
  const end = [...whole.timeS.keys()].filter((i) => whole.timeS[i]! < 985);
  return thermalHistory(
    end.map((i) => whole.timeS[i]!),
    end.map((i) => whole.tempC[i]!),
  );
};

/** Four channels: arc-start spikes on two, a hole in TC2, and TC3 letting go during the repair. */
export function sampleLog(): ThermalLog {
  return {
    source: {
      name: 'mast-foot.csv',
      bytes: 148_213,
      sha256: '9f1c0b7a5f6b2a1d4e3c8b7a6f5e4d3c2b1a0f9e8d7c6b5a4f3e2d1c0b9a8f7e',
    },
    channels: [
      channel('TC1', passTrace(214, 9), arcStarts('TC1')),
      channel('TC2', withoutStretch(passTrace(162, 14), 690, 760), [
        sampleFault({
          kind: 'gap',
          fromS: 690,
          toS: 760,
          column: 'TC2',
          reason: 'No rows for 70 s; the limit for a gap is 10 s.',
        }),
      ]),
      channel('TC3', tc3(), [
        ...arcStarts('TC3').slice(0, 3),
        sampleFault({
          kind: 'open circuit',
          fromS: 985,
          toS: 1500,
          column: 'TC3',
          value: '2552.0',
          reason: 'The probe let go: the reading jumped to the top of the range and stayed there.',
        }),
      ]),
      channel('TC4', passTrace(64, 40)),
    ],
    leftAside: [{ name: 'Ambient RH', unit: '%', why: 'relative humidity is not a temperature' }],
    rows: { read: 3001, kept: 1962, flagged: 1038, rejected: 1 },
    openReadings: [],
    statements: {},
    rowFaults: [
      sampleFault({
        kind: 'missing field',
        fromS: 411,
        toS: 411,
        column: '',
        value: '03:06:51;',
        reason: 'The row ends after the clock.',
      }),
    ],
    intervalS: STEP_S,
    startedAt: '2031-05-14T09:12:00',
    notes: [
      'Fields are parted by semicolons and decimals by commas.',
      'Temperatures are in °F as the column names say, and were turned into °C.',
      'The clock counts hours, minutes and seconds from the start of the recording.',
    ],
  };
}

/** Twelve channels of falling peaks, for the crowded case. */
export function twelveChannels(): { name: string; history: ThermalHistory }[] {
  return Array.from({ length: 12 }, (_, i) => ({
    name: `TC${i + 1}`,
    history: passTrace(230 - 16 * i, 9 + 2.5 * i),
  }));
}

/** Strength that falls in steps at the passes, with a band that opens as it falls. */
export function sampleTrack(history: ThermalHistory, lossFraction: number): StrengthTrack {
  const timeS = history.timeS;
  const last = timeS[timeS.length - 1]!;
  const loss = (t: number) =>
    PASS_STARTS_S.reduce(
      (sum, start, k) => sum + (t > start ? (0.15 + 0.1 * k) * (1 - Math.exp(-(t - start) / 25)) : 0),
      0,
    );
  const whole = loss(last);
  const nominal = timeS.map((t) => 1 - (lossFraction * loss(t)) / whole);
  return {
    timeS,
    nominal,
    low: nominal.map((kept) => 1 - (1 - kept) * 1.7),
    high: nominal.map((kept) => 1 - (1 - kept) * 0.55),
  };
}

const passesOf = (peakC: number): Pass[] =>
  PASS_STARTS_S.map((start, k) => ({
    number: k + 1,
    startS: start,
    peakS: start + 10,
    endS: start + 120,
    peakC: peakC - 14 * (3 - k),
    interpassC: 22 + 18 * k,
    heatingRateKPerS: 42,
    coolingRateKPerS: 6,
  }));

function sampleChannel(
  name: string,
  history: ThermalHistory,
  lossFraction: number,
  verdict: VerdictWord,
  sentence: string,
  settle: readonly string[] = [],
): ChannelVerdict {
  const kept = judged(1 - lossFraction, [1 - lossFraction * 1.7, 1 - lossFraction * 0.55], '', [
    'Low side: the probe reads up to 25 °C low at the peaks.',
    'Activation energy 110 to 145 kJ/mol.',
  ]);
  const peakC = history.tempC.reduce((a, b) => Math.max(a, b));
  const above = peakC > 227 ? 38 : 0;
  return {
    name,
    alloy: 'A356.0',
    temper: 'T6',
    verdict,
    sentence,
    yieldKeptFraction: kept,
    yieldMPa: judged(kept.nominal * 205, [kept.low * 190, kept.high * 220], 'MPa', [
      'T6 casting: 190 to 220 MPa before welding.',
    ]),
    peakC: judged(peakC, [peakC - 3, peakC + 25], '°C', ['Type K, class 2; sampled at 2 Hz.']),
    limits: [
      {
        name: 'shop limit',
        limitC: 226.7,
        known: 'practice',
        crossed: peakC > 227,
        timeAboveS: judged(above, [above, above === 0 ? 6 : 71], 's', ['High side: 25 °C hotter than read.']),
        meaning: 'Common practice for T6 castings: keep the metal below this.',
      },
      {
        name: 'ageing range',
        limitC: 155,
        known: 'derived',
        crossed: peakC > 155,
        timeAboveS: judged(190, [160, 240], 's', ['Straight lines between rows.']),
        meaning: 'Above this the casting goes on ageing.',
      },
    ],
    passes: passesOf(peakC),
    passShare: [0.14, 0.21, 0.28, 0.37],
    coveredS: history.timeS[history.timeS.length - 1]! - history.timeS[0]!,
    uncoveredS: name === 'TC2' ? 71 : 0,
    asReadFraction: kept.nominal,
    chanceKept: verdict === 'kept' ? 0.995 : 0.62,
    ultimateKeptFraction: null,
    blind: [],
    doubts: [
      { kind: 'metal', of: 'how this metal answers heat', drop: 0.04, rise: 0.03 },
      { kind: 'fixing', of: 'a probe that reads low by its fixing', drop: 0.02, rise: 0.01 },
    ],
    budget: {
      timeAtLimitS: judged(above ? 0 : 840, [0, above ? 60 : 1500], 's', ['At the shop limit.']),
      sentence: above
        ? 'Nothing is left for another repair pass here.'
        : 'About 14 min at the shop limit are left before the allowance is used up.',
    },
    settle,
    track: sampleTrack(history, lossFraction),
    exposure: exactly(history),
    earlier: [],
  };
}

/** A verdict on `sampleLog`: one probe uncertain, the others kept. */
export function sampleVerdict(log: ThermalLog = sampleLog()): Verdict {
  const [tc1, tc2, tc3channel, tc4] = log.channels.map((c) => c.history) as [
    ThermalHistory,
    ThermalHistory,
    ThermalHistory,
    ThermalHistory,
  ];
  return {
    alloy: 'A356.0',
    temper: 'T6',
    allowanceFraction: 0.1,
    verdict: 'uncertain',
    chanceKept: 0.62,
    notJudged: [{ name: 'air', isOnPart: false, because: 'It reads the air, not the part.' }],
    openReadings: [],
    fixingNotStated: [],
    madeWith: {},
    sentence: 'The temper at TC1 may have lost more than the 10 % allowed; the other probes kept theirs.',
    action: {
      word: 'uncertain',
      headline: 'Measure first',
      place: 'TC1',
      chance: 0.62,
      reason: 'TC1 decides. TC1 kept about 91 % of its yield, but the band reaches down to 85 %.',
      asWelded: [],
      plans: [],
      now: [
        'Hold the part until one of these is measured, or go on as if the strength were lost.',
        'Measure hardness 5 mm beside the weld toe next to TC1: 75 HB or more settles it as kept.',
      ],
      ways: [
        {
          kind: 'accept',
          name: 'Accept as it is',
          yieldKeptFraction: judged(0.91, [0.847, 0.95], '1', ['as judged']),
          ultimateKeptFraction: null,
          chanceKept: 0.62,
          timeS: 0,
          permission: 'ask first',
          forbiddenBy: [],
          askFirst: ['Whether the part holds pressure is not said'],
          remark: 'Nothing comes back.',
        },
        {
          kind: 'scrap',
          name: 'Scrap',
          yieldKeptFraction: null,
          ultimateKeptFraction: null,
          chanceKept: null,
          timeS: 0,
          permission: 'possible',
          forbiddenBy: [],
          askFirst: [],
          remark: 'Always open, and cheaper than a failure.',
        },
      ],
    },
    channels: [
      sampleChannel(
        'TC1',
        tc1,
        0.09,
        'uncertain',
        'TC1 kept about 91 % of its yield, but the band reaches down to 85 %, below the 90 % you asked for.',
        [
          'Measure hardness 5 mm beside the weld toe next to TC1: 75 HB or more settles it as kept.',
          'Measure conductivity at the same spot: above 42 % IACS means over-aged.',
        ],
      ),
      sampleChannel('TC2', tc2, 0.042, 'kept', 'TC2 kept about 96 % of its yield, at worst 93 %.'),
      sampleChannel('TC3', tc3channel, 0.02, 'kept', 'TC3 kept about 98 % until it let go at 16 min.'),
      sampleChannel('TC4', tc4, 0.002, 'kept', 'TC4 never came near a temperature that matters.'),
    ],
    assumptions: [
      {
        name: 'Activation energy of over-ageing',
        value: '130 kJ/mol (110 to 145)',
        source: 'Self-diffusion and solute diffusion of Mg and Si in aluminium',
        known: 'derived',
      },
      {
        name: 'Shop limit',
        value: '227 °C (440 °F)',
        source: 'Common practice, no source',
        known: 'practice',
      },
      {
        name: 'Yield before welding',
        value: '205 MPa (190 to 220)',
        source: 'Typical of the alloy and temper; not measured on this part',
        known: 'memory',
      },
    ],
    cautions: [
      'The probe sees one spot. Metal nearer the arc was hotter.',
      'EN 1999-1-1 gives no strength of a welded A356 casting: ask for hardness or a test where it matters.',
    ],
  };
}
