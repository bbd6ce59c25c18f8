import type { OutputPiece } from './messages';
import type { DisplayOutput, Output } from './notebookFile';

/** Gathers the outputs of a run, cell by cell, as a notebook file stores them. */
export class CellOutputs {
  private readonly byCell = new Map<number, Output[]>();
  private readonly named = new Map<string, { outputs: Output[]; at: number }[]>();

  /** Adds a piece to a cell; a display that updates an earlier one replaces it where that stands. */
  add(index: number, piece: OutputPiece): void {
    const outputs = this.of(index);
    if (piece.kind === 'text') {
      const last = outputs.at(-1);
      if (last?.output_type === 'stream' && last.name === piece.stream) {
        outputs[outputs.length - 1] = { ...last, text: last.text + piece.text };
      } else {
        outputs.push({ output_type: 'stream', name: piece.stream, text: piece.text });
      }
      return;
    }
    const { data, metadata, displayId, update } = piece;
    const display: DisplayOutput = { output_type: 'display_data', data, metadata };
    const places = displayId === undefined ? [] : (this.named.get(displayId) ?? []);
    if (update) {
      for (const place of places) place.outputs[place.at] = display;
      return;
    }
    if (displayId !== undefined) {
      this.named.set(displayId, [...places, { outputs, at: outputs.length }]);
    }
    outputs.push(display);
  }

  /** What a cell has put out so far. */
  of(index: number): Output[] {
    const known = this.byCell.get(index);
    if (known !== undefined) return known;
    const outputs: Output[] = [];
    this.byCell.set(index, outputs);
    return outputs;
  }
}
