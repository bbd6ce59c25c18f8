import type { NotebookProgress } from '../notebook';

/** A line that cannot be rewritten is not repeated more often than this. */
const REPEAT_S = 10;

/**
 * Prints what a notebook has for a terminal (see `CellPlace`) and its warnings, and how far it has come: on a
 * terminal in one line that is rewritten, elsewhere (a log of a build) in a line per cell.
 */
export function progressPrinter(): (progress: NotebookProgress) => void {
  const { stdout, stderr } = process;
  const rewritable = stderr.isTTY === true;
  const status = (text: string) => stderr.write(rewritable ? `\r\x1b[K${text}` : `${text}\n`);
  let toldS = 0;

  return (progress) => {
    if (progress.state === 'output') {
      const text = textOf(progress);
      if (text === '') return;
      if (rewritable) stderr.write('\r\x1b[K');
      (progress.piece.kind === 'text' && progress.piece.stream === 'stderr' ? stderr : stdout).write(text);
      return;
    }
    const { cell, seconds } = progress;
    const place = `[${cell.number}/${cell.count}] ${cell.title}`;
    if (progress.state === 'finished') {
      if (rewritable) stderr.write('\r\x1b[K');
      else if (seconds >= 1) status(`${place}: done in ${seconds.toFixed(1)} s`);
      return;
    }
    if (seconds > 0 && !rewritable && seconds < toldS + REPEAT_S) return;
    toldS = seconds;
    status(seconds === 0 ? place : `${place} … ${seconds.toFixed(0)} s`);
  };
}

/** What of an output a terminal can show: printed text, and the text form of a display. */
function textOf({ cell, piece }: Extract<NotebookProgress, { state: 'output' }>): string {
  if (piece.kind === 'text' && piece.stream === 'stderr') return piece.text;
  if (!cell.forTerminal) return '';
  if (piece.kind === 'text') return piece.text;
  const text = piece.data['text/plain'];
  return typeof text === 'string' ? `${text}\n` : '';
}
