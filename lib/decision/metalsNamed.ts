import { namedMetal, parseMetal } from '../alloy';
import type { ChannelOptions, JudgeOptions } from './judgeOptions';

/** Options whose alloy and temper stand apart. */
export type NamedOptions = JudgeOptions & { readonly temper: string };

/**
 * The options of `judge` with alloy and temper apart where they were written in one word ('A356-T6'), of the part and of
 * each channel.
 * @throws TemperbookError as `namedMetal`.
 */
export function metalsNamed(options: JudgeOptions): NamedOptions {
  const { card, temper } = namedMetal(options.alloy, options.temper);
  if (!options.byChannel) return { ...options, alloy: card, temper };
  const named = (own: ChannelOptions): ChannelOptions => {
    if (typeof own?.alloy !== 'string') return own;
    const words = parseMetal(own.alloy);
    const metal = namedMetal(own.alloy, own.temper ?? (words.temper === undefined ? temper : undefined));
    return { ...own, alloy: metal.card, temper: metal.temper };
  };
  const byChannel = Object.fromEntries(
    Object.entries(options.byChannel).map(([name, own]) => [name, named(own)]),
  );
  return { ...options, alloy: card, temper, byChannel };
}
