import { parseArgs } from 'node:util';
import { judgeHeats } from '../../decision';
import { type BakeCertificate, bakeCertificate } from '../../heattreat';
import { readUserJson } from '../../quantity';
import { readUnits } from '../../section';
import { fractionOf } from '../fractionOf';
import { onlyOne, required, yesOrNo } from '../usage';

/** `temperbook certificate <file.json> --lot HB-07 [--alloy A356-T6] [--wall 12mm] [--fan yes]` */
export async function certificate(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      lot: { type: 'string' },
      alloy: { type: 'string' },
      temper: { type: 'string' },
      loss: { type: 'string' },
      wall: { type: 'string' },
      fan: { type: 'string' },
    },
  });
  const path = onlyOne(positionals, 'the certificate, a .json file');
  const lot = required(values.lot, '--lot <name>, the lot of the part in hand,');
  const stated = readUserJson(path, 'The certificate') as BakeCertificate;
  const { heat, oven, asks, because } = bakeCertificate(stated, lot);
  const judged =
    heat && values.alloy !== undefined
      ? judgeHeats(heat, {
          alloy: values.alloy,
          temper: values.temper,
          oven,
          ...(values.wall === undefined ? {} : (readUnits({ wall: values.wall }) as { wallMm: number })),
          ...(values.fan === undefined ? {} : { fan: yesOrNo('--fan', values.fan) }),
          ...(values.loss === undefined ? {} : { allowanceFraction: fractionOf(values.loss) }),
        })
      : undefined;
  const list = (title: string, lines: readonly string[]): string[] =>
    lines.length > 0 ? [title, ...lines.map((line) => `  ${line}`), ''] : [];
  process.stdout.write(
    [
      ...list('What may be concluded', because),
      ...list('Ask who wrote it', asks),
      ...(judged
        ? list('If it was so', [judged.sentence, ...(judged.left ? [judged.left.sentence] : [])])
        : []),
    ].join('\n'),
  );
}
