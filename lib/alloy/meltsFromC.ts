import type { AlloyCard } from './alloyCard';

/** Where metal of an alloy begins to melt, °C: the card's melting limit (eutectic and segregation included), else its solidus. */
export function meltsFromC({ limits, thermal }: AlloyCard): number {
  return (limits.find(({ applies }) => applies === 'melting')?.limitC ?? thermal.solidusC).value;
}
