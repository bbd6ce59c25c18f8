/** The command was typed wrongly: told with a hint at --help, exit code 2. */
export class UsageError extends Error {}

export const HELP = `What heat did to an aluminium part, from your temperature log.

  temperbook review <log file> --alloy A356.0 --temper T6 --out <folder>
      Reads your logger's file, says for each probe whether the temper held,
      and writes a record that you can print and sign.

  temperbook run <notebook> --set name=value --out <folder>
      Works through a notebook without Jupyter and writes its results as a
      web page and as a copy of the notebook.

  temperbook jupyter [folder]
      Opens the folder's notebooks in Jupyter, to read, change and run them.

For review:
  --alloy <name>     what the part is made of: A356.0, 356.0, 6061, 6063, 6082
  --temper <name>    its temper before welding, such as T6
  --allow <percent>  how much of its strength it may lose (10 unless you say)
  --out <folder>     where the record goes; made if it is not there

For run:
  --set name=value   sets a value the notebook asks for; as often as you need
  --out <folder>     where the results go; made if it is not there
  --no-code          leaves the code out of the web page

Exit code: 0 done, 1 something is wrong with a file or value, 2 the command
was typed wrongly.
`;

/** A value that must be given. */
export function required(value: string | undefined, what: string): string {
  if (value === undefined || value === '') throw new UsageError(`${what} is missing`);
  return value;
}
