import { findJupyter, JUPYTER_HELP, openJupyter, registerKernel } from '../notebook';

/** `temperbook jupyter [folder]`; anything further is handed to Jupyter. */
export async function jupyter([folder = '.', ...args]: string[]): Promise<void> {
  const environment = registerKernel(process.cwd());
  const kind = findJupyter();
  if (kind === undefined) process.stdout.write(JUPYTER_HELP);
  else await openJupyter(kind, folder, environment, args);
}
