import { sampleCorrelation } from 'simple-statistics';
import { formatTemp, formatTempSpan } from '../../quantity';
import { median } from '../columns/columnSample';
import { AMBIENT } from '../columns/temperatureColumns';
import type { ChannelData } from './channelData';
import { codeOf } from './faultCodes';

const DEAD = codeOf('dead channel');
const REVERSED = codeOf('reversed polarity');
/** Rows looked at; a dead or reversed channel is so all along. */
const LOOKED_AT = 4000;
const LEAST_ROWS = 10;
/** Neighbours went hot when their middle swing is so large, K. */
const HOT_SWING_C = 150;
/** Metal near hot metal follows by at least this share of its swing; aluminium conducts. */
const DEAD_SHARE = 0.02;
/** A channel frozen to the digit is dead as soon as its neighbours move this much, K. */
const FROZEN_SWING_C = 30;
/** Nor does it stay this cold where all others pass this, °C: a furnace leaves no cold corner. */
const COLD_C = 40;
const GLOWING_C = 800;
/** A channel is reversed when it falls this far, K, while neighbours rise, in step with them. */
const REVERSED_FALL_C = 15;
const REVERSED_CORRELATION = -0.9;

interface Track {
  readonly channel: ChannelData;
  readonly values: Float64Array;
  readonly startC: number;
  readonly lowC: number;
  readonly highC: number;
}

/**
 * Compares channels with each other: one that stays put while its neighbours go hot is dead, one that falls
 * while they rise has its wires swapped. Channels named for the surroundings may stay put. A quiet channel in a
 * quiet log is neither.
 */
export function markOddChannels(channels: readonly ChannelData[]): void {
  const tracks = channels.map(track).filter((t): t is Track => t !== undefined);
  if (tracks.length < 2) return;
  for (const own of tracks) {
    const others = tracks.filter((t) => t !== own);
    const swing = own.highC - own.lowC;
    const othersSwing = median(others.map(({ lowC, highC }) => highC - lowC));
    const isAmbient = AMBIENT.test(own.channel.name) || AMBIENT.test(own.channel.column);
    const isDead =
      (othersSwing >= HOT_SWING_C && swing < DEAD_SHARE * othersSwing) ||
      (othersSwing >= FROZEN_SWING_C && swing === 0) ||
      (own.highC < COLD_C && others.every((other) => other.highC >= GLOWING_C));
    if (isDead && !isAmbient) {
      markAll(own.channel, DEAD);
      own.channel.remarks.set(
        'dead channel',
        `the channel stays at ${formatTemp(own.startC)} while its neighbours move by ${formatTempSpan(othersSwing)}: it does not measure the part`,
      );
    } else if (isReversed(own, others)) {
      markAll(own.channel, REVERSED);
      own.channel.remarks.set(
        'reversed polarity',
        `the channel falls from ${formatTemp(own.startC)} to ${formatTemp(own.lowC)} in step with its neighbours' rise: its two wires are swapped`,
      );
    }
  }
}

/** Readings at evenly spread rows, NaN where not trusted; undefined when there are too few. */
function track(channel: ChannelData): Track | undefined {
  const { tempC, marks } = channel;
  const every = Math.max(1, Math.floor(tempC.length / LOOKED_AT));
  const values = new Float64Array(Math.ceil(tempC.length / every));
  let filled = 0;
  let lowC = Number.POSITIVE_INFINITY;
  let highC = Number.NEGATIVE_INFINITY;
  for (let i = 0, k = 0; i < tempC.length; i += every, k++) {
    const isTrusted = marks[i] === 0;
    values[k] = isTrusted ? tempC[i]! : Number.NaN;
    if (!isTrusted) continue;
    filled++;
    lowC = Math.min(lowC, tempC[i]!);
    highC = Math.max(highC, tempC[i]!);
  }
  if (filled < LEAST_ROWS) return undefined;
  return { channel, values, startC: median(values.subarray(0, Math.min(20, values.length))), lowC, highC };
}

function isReversed(own: Track, others: readonly Track[]): boolean {
  const fall = own.startC - own.lowC;
  if (!(fall >= REVERSED_FALL_C) || own.highC - own.startC > 0.2 * fall) return false;
  const rising = others.filter(
    ({ startC, lowC, highC }) => highC - startC >= FROZEN_SWING_C && startC - lowC < 0.5 * (highC - startC),
  );
  if (rising.length === 0) return false;
  const itself: number[] = [];
  const around: number[] = [];
  own.values.forEach((value, k) => {
    const beside = rising.map(({ values, startC }) => values[k]! - startC).filter((v) => !Number.isNaN(v));
    if (Number.isNaN(value) || beside.length === 0) return;
    itself.push(value);
    around.push(beside.reduce((a, b) => a + b) / beside.length);
  });
  return itself.length > 1 && sampleCorrelation(itself, around) <= REVERSED_CORRELATION;
}

function markAll({ marks }: ChannelData, code: number): void {
  for (let i = 0; i < marks.length; i++) if (marks[i] === 0) marks[i] = code;
}
