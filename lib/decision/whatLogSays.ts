import type { ThermalLog } from '../log';
import { TemperbookError } from '../quantity';
import type { ToleranceClass } from '../thermocouple';
import type { ChannelOptions, JudgeOptions } from './judgeOptions';
import { openReadingSentence } from './wording';

/** What a log says of how it was measured, as far as a verdict depends on it. */
export interface LogSays {
  readonly roleOf: (channel: string) => 'part' | 'air' | 'not said';
  readonly areMeans: (channel: string) => boolean;
  /** How long the means of a channel run, s, where the file says. */
  readonly meansOverS: (channel: string) => number | undefined;
  /** The wire that the file names; absent where it names none. */
  readonly thermocouple?: ToleranceClass;
  /** Why a channel read like that cannot clear metal. */
  readonly cannotClear: (channel: string, own: Pick<ChannelOptions, 'instrument'>) => readonly string[];
}

/**
 * What the file states and the options do not take back.
 * @throws TemperbookError when file and options name two kinds of wire: which one is wrong changes every reading.
 */
export function whatLogSays(log: ThermalLog, { thermocouple }: Pick<JudgeOptions, 'thermocouple'>): LogSays {
  const { means, minima, wire, infrared, air, beside } = log.statements;
  if (wire && thermocouple && thermocouple.type !== wire.type)
    throw new TemperbookError('The log names another wire than the options', {
      file: log.source.name,
      row: wire.row,
      found: `"${wire.words}" in the file, type ${thermocouple.type} in the option thermocouple`,
      expected: 'one kind of wire',
      remedy:
        'Look at the plug or the colour of the wire; where the file is wrong, mend its header in a copy and read that',
    });
  const areMeans = (channel: string) =>
    means !== undefined && (means.channels.length === 0 || means.channels.includes(channel));
  return {
    roleOf: (channel) => {
      if (air?.channels.includes(channel)) return 'air';
      return beside?.channels.includes(channel) ? 'not said' : 'part';
    },
    areMeans,
    meansOverS: (channel) =>
      areMeans(channel) ? (means?.overS ?? (means?.overReadings ?? 1) * log.intervalS) : undefined,
    ...(wire ? { thermocouple: thermocouple ?? usual(wire.type) } : {}),
    cannotClear: (channel, { instrument }) => [
      ...log.openReadings.map(openReadingSentence),
      ...(minima?.channels.includes(channel)
        ? [
            'By its name the column holds the lowest reading of each interval: a pass shows in none of them. Log the highest, or measure there.',
          ]
        : []),
      ...bareMetal(instrument ?? (infrared ? BARE : 'thermocouple'), infrared?.words),
    ],
  };
}

const BARE = 'infrared on bare metal';

function bareMetal(instrument: NonNullable<ChannelOptions['instrument']>, words?: string): string[] {
  if (instrument !== BARE) return [];
  const how = words === undefined ? 'The metal was' : `Going by "${words}" in the file the metal was`;
  return [
    `${how} read by an infrared instrument: bare aluminium shines so little that such a reading may be far too low and bounds nothing. Measure there, or say that the spot was painted (instrument "infrared on a painted spot").`,
  ];
}

/** Wire as bought without asking for more. */
function usual(type: ToleranceClass['type']): ToleranceClass {
  return { standard: 'IEC 60584-1', class: 2, type };
}
