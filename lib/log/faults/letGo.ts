import { formatTemp } from '../../quantity';
import { median } from '../columns/columnSample';
import type { ChannelData } from './channelData';
import { codeOf } from './faultCodes';

const LET_GO = codeOf('let go');
const NEAR_ROOM_C = 15;
const HOT_C = 60;
/**
 * Metal does not fall from 60 K to 15 K above the room in this time without being quenched, s; or in this many
 * rows. A probe in still air takes some seconds: three time constants of a bare bead are about that.
 */
const FALL_S = 30;
const FALL_ROWS = 2;
const LEAST_ROWS = 20;
const COMPARED_ROWS = 10;

/**
 * Marks the end of a channel that let go of the part: it falls to the room at once and stays there while its
 * neighbours are still hot. In a quench all channels fall, so none is marked.
 */
export function markLetGo(channels: readonly ChannelData[], timeS: Float64Array): void {
  const last = channels.map(({ tempC, marks }) => lastAbove(tempC, marks));
  channels.forEach((own, k) => {
    const { roomC, warm, hot } = last[k]!;
    if (hot < 0 || warm + LEAST_ROWS >= timeS.length) return;
    const fallS = timeS[warm + 1]! - timeS[hot]!;
    if (fallS > FALL_S && warm + 1 - hot > FALL_ROWS) return;
    const beside: number[] = [];
    channels.forEach((other, o) => {
      if (o === k) return;
      for (let i = warm + 1; i <= warm + COMPARED_ROWS; i++)
        if (other.marks[i] === 0) beside.push(other.tempC[i]! - last[o]!.roomC);
    });
    if (beside.length === 0 || !(median(beside) > HOT_C)) return;
    let marked = 0;
    for (let i = hot + 1; i < timeS.length; i++)
      if (own.marks[i] === 0) {
        own.marks[i] = LET_GO;
        marked++;
      }
    if (marked > 0)
      own.remarks.set(
        'let go',
        `the reading falls to the room's ${formatTemp(roomC)} at once and stays there while its neighbours are hot: it let go of the part`,
      );
  });
}

/** Last rows at which a channel is hot, and at which it is above room temperature at all; −1 for never. */
function lastAbove(tempC: Float64Array, marks: Uint8Array): { roomC: number; warm: number; hot: number } {
  const first = marks.indexOf(0);
  const startC = first < 0 ? 25 : tempC[first]!;
  const roomC = startC > -10 && startC < 50 ? startC : 25;
  let warm = tempC.length - 1;
  while (warm >= 0 && (marks[warm] !== 0 || tempC[warm]! <= roomC + NEAR_ROOM_C)) warm--;
  let hot = warm;
  while (hot >= 0 && (marks[hot] !== 0 || tempC[hot]! <= roomC + HOT_C)) hot--;
  return { roomC, warm, hot };
}
