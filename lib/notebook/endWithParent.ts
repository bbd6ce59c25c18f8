import { Worker } from 'node:worker_threads';

/** Watches from a thread of its own, which a cell that never yields does not hold up. */
const WATCH = `const { ppid } = process;
setInterval(() => { if (process.ppid !== ppid) process.kill(process.pid, 'SIGKILL'); }, 500);`;

/** Ends this process once its parent is gone, however the parent ended. */
export function endWithParent(): void {
  new Worker(WATCH, { eval: true, stdin: false }).unref();
}
