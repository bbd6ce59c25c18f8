#!/usr/bin/env node
import { runCommand } from './command';

// Whoever reads the output may have seen enough (`temperbook parts … | head`): the work is still done to its end.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });

runCommand(process.argv.slice(2)).then((code) => {
  process.exitCode = code;
});
