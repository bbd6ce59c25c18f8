import type { PlateModel } from '../model/plateCells';

/** The clamps and chills of a plate, and how warm their bodies are. */
export class ContactBodies {
  /** Temperature of each body during the step, °C; constant within it. */
  private meanC: number[];
  private readonly bodyC: number[];
  private readonly touches: boolean[];

  constructor(private readonly model: PlateModel) {
    this.bodyC = model.contacts.map((contact) => contact.bodyC);
    this.meanC = [...this.bodyC];
    this.touches = model.contacts.map(({ putOn }) => putOn === undefined);
  }

  /** Whether a body touches the part now. */
  isOn(contact: number): boolean {
    return this.touches[contact]!;
  }

  /** Puts a body on, or takes it off. */
  turn(contact: number, on: boolean): void {
    this.touches[contact] = on;
  }

  /**
   * Sets the mean temperature of each body over a step: it nears its footprint's present mean exponentially.
   * With the heat then drawn booked by `book`, a body never runs past the metal it touches.
   */
  prepare(dtS: number, tempC: Float64Array): void {
    this.meanC = this.model.contacts.map(({ cells, wattsPerK, bodyHeatJPerK }, k) => {
      const bodyC = this.bodyC[k]!;
      if (!this.touches[k]) return bodyC;
      let whole = 0;
      let footprintC = 0;
      for (let i = 0; i < cells.length; i++) {
        whole += wattsPerK[i]!;
        footprintC += wattsPerK[i]! * tempC[cells[i]!]!;
      }
      const exponent = (whole * dtS) / bodyHeatJPerK;
      if (exponent === 0) return bodyC;
      footprintC /= whole;
      return footprintC + ((bodyC - footprintC) * -Math.expm1(-exponent)) / exponent;
    });
  }

  /** Takes what the contacts draw out of the flows given; returns the draw of each, W. */
  takeFrom(flow: Float64Array, tempC: Float64Array): number[] {
    return this.model.contacts.map(({ cells, wattsPerK }, k) => {
      let draw = 0;
      if (!this.touches[k]) return draw;
      const bodyC = this.meanC[k]!;
      for (let i = 0; i < cells.length; i++) {
        const watts = wattsPerK[i]! * (tempC[cells[i]!]! - bodyC);
        flow[cells[i]!]! -= watts;
        draw += watts;
      }
      return draw;
    });
  }

  /** How much more each contact draws when its cells are warmer by the change given, W. */
  drawOf(changeK: Float64Array): number[] {
    return this.model.contacts.map(({ cells, wattsPerK }, k) => {
      let draw = 0;
      if (this.touches[k]) for (let i = 0; i < cells.length; i++) draw += wattsPerK[i]! * changeK[cells[i]!]!;
      return draw;
    });
  }

  /** Adds the conductance of the contacts to the diagonal of a conduction matrix, W/K. */
  stiffen(own: Float64Array): void {
    for (const [k, { cells, wattsPerK }] of this.model.contacts.entries())
      if (this.touches[k]) for (let i = 0; i < cells.length; i++) own[cells[i]!]! += wattsPerK[i]!;
  }

  /** Gives the bodies the heat they drew, J. */
  book(heatJ: readonly number[]): void {
    for (const [k, { bodyHeatJPerK }] of this.model.contacts.entries())
      this.bodyC[k]! += heatJ[k]! / bodyHeatJPerK;
  }
}
