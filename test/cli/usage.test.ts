import { tmpdir } from 'node:os';
import { describe, expect, it } from 'vitest';
import { asProcess, temperbook } from './temperbook';

describe('temperbook', () => {
  it('explains itself, each command and each option of it', async () => {
    const { status, stdout } = await temperbook(tmpdir(), '--help');
    expect(status).toBe(0);
    for (const word of ['review', 'run', 'jupyter', '--alloy', '--temper', '--set', '--out', '--no-code'])
      expect(stdout).toContain(word);
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('tells of one command what it does, its options and the exit codes, and nothing else', async () => {
    const help = async (command: string) => (await temperbook(tmpdir(), command, '--help')).stdout;
    const run = await help('run');
    for (const part of ['temperbook run <notebook>', '--set name=value', '--units us', 'Exit code'])
      expect(run).toContain(part);
    expect(run).not.toMatch(/temperbook review|--alloy|--sign/);
    const whole = (await temperbook(tmpdir(), '--help')).stdout;
    const commands = [...whole.matchAll(/^ {2}temperbook (\w+)/gm)].map(([, name]) => name!);
    expect(commands.length).toBeGreaterThan(10);
    for (const command of commands) expect(await help(command)).toContain(`  temperbook ${command}`);
  });

  it.each([
    [[], 'What heat did'],
    [['rewiev', 'a.csv'], 'there is no command "rewiev"'],
    [['constructor'], 'there is no command "constructor"'],
    [['run', '--out', 'x'], 'the notebook to run is missing'],
    [['run', 'a.ipynb'], '--out <folder> is missing'],
    [['run', 'a.ipynb', 'b.ipynb', '--out', 'x'], 'what is "b.ipynb"?'],
    [['run', 'a.ipynb', '--colour'], "Unknown option '--colour'"],
    [['review', 'a.csv', '--alloy', 'A356-T6'], '--out <folder> is missing'],
    [['new'], 'the folder to make is missing'],
  ])('exits with 2 when it is typed wrongly: %j', async (args, message) => {
    const { status, stdout, stderr } = await temperbook(tmpdir(), ...args);
    expect(stdout + stderr).toContain(message);
    expect(status).toBe(2);
  });

  it('ends as a process with the code, and with the words, of the command', async () => {
    for (const args of [['--help'], ['rewiev'], ['review', 'none.csv', '--alloy', 'A356-T6', '--out', 'x']]) {
      const { status, stdout, stderr } = asProcess(tmpdir(), ...args);
      expect({ status, stdout, stderr }).toEqual(await temperbook(tmpdir(), ...args));
    }
  });
});
