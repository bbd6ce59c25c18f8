import { TemperbookError } from '../../quantity';

/** Groups the codes tell apart. */
export type AlloySeries = '3xxx' | '5xxx' | '6xxx' | '7xxx' | 'other wrought' | 'casting';

/**
 * Group of an alloy by its designation: four digits ('6061', '6061-T6', 'EN AW-6082') are wrought, three with an
 * optional letter and decimal ('A356.0', '356') or 'EN AC-42100' are castings.
 * @throws TemperbookError when it reads as neither.
 */
export function alloySeries(designation: string): AlloySeries {
  const name = designation.trim().toUpperCase();
  if (/^(EN[ -]?)?AC[ -]?\d{5}/.test(name) || /^[A-F]?\d{3}(\.\d)?(-|$)/.test(name)) return 'casting';
  const wrought = /^(?:EN[ -]?AW[ -]?|AW[ -]?)?(\d)\d{3}[A-Z]?(-|$)/.exec(name);
  if (!wrought)
    throw new TemperbookError('This is no aluminium designation the codes use', {
      found: `"${designation}"`,
      expected: "four digits such as '6061', or a casting such as 'A356.0' or 'EN AC-42100'",
    });
  const series = `${wrought[1]}xxx`;
  return series === '3xxx' || series === '5xxx' || series === '6xxx' || series === '7xxx'
    ? series
    : 'other wrought';
}
