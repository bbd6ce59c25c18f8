#!/usr/bin/env node
import { runCommand } from './command';

runCommand(process.argv.slice(2)).then((code) => {
  process.exitCode = code;
});
