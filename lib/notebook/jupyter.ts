import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { TemperbookError } from '../quantity';

/** What to do where Jupyter is missing. */
export const JUPYTER_HELP = `Jupyter is not installed here. To get it, one of:
  Debian or Ubuntu   sudo apt install jupyter-notebook
  macOS              brew install jupyterlab
  with Python        pip install notebook
The notebooks run without it too: temperbook run <notebook> --out <folder>
`;

/**
 * Makes the TypeScript kernel known to a Jupyter that is started with the returned environment, and to no
 * other: kernel, settings and runtime files all go into `.jupyter` inside `projectFolder`, none into the
 * user's home. The kernel is the tslab that the project's notebooks use.
 */
export function registerKernel(projectFolder: string): NodeJS.ProcessEnv {
  const home = resolve(projectFolder, '.jupyter');
  const tslab = require.resolve('tslab/dist/main.js', { paths: [projectFolder, __dirname] });
  const kernel = {
    argv: [
      process.execPath,
      join(dirname(tslab), '../bin/tslab'),
      'kernel',
      '--config-path={connection_file}',
    ],
    display_name: 'TypeScript',
    language: 'typescript',
  };
  writeJson(join(home, 'data', 'kernels', 'tslab', 'kernel.json'), kernel);
  // Plotly, sent once ahead of the first figure, is about the megabyte a second that Jupyter lets pass.
  const rate = { iopub_data_rate_limit: 1e9 };
  writeJson(join(home, 'config', 'jupyter_notebook_config.json'), { NotebookApp: rate });
  writeJson(join(home, 'config', 'jupyter_server_config.json'), { ZMQChannelsWebsocketConnection: rate });
  return {
    ...process.env,
    JUPYTER_DATA_DIR: join(home, 'data'),
    JUPYTER_CONFIG_DIR: join(home, 'config'),
    JUPYTER_RUNTIME_DIR: join(home, 'runtime'),
    IPYTHONDIR: join(home, 'ipython'),
  };
}

function writeJson(path: string, value: unknown): void {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, `${JSON.stringify(value, null, 2)}\n`);
}

/** The Jupyter to open: JupyterLab where there is one, else the classic one; undefined where there is none. */
export function findJupyter(): 'lab' | 'notebook' | undefined {
  return (['lab', 'notebook'] as const).find(
    (kind) => spawnSync('jupyter', [kind, '--version'], { stdio: 'ignore' }).status === 0,
  );
}

/**
 * Opens `folder` in Jupyter and waits until it is closed. Further arguments are Jupyter's own.
 * @throws TemperbookError when it ends badly.
 */
export function openJupyter(
  kind: 'lab' | 'notebook',
  folder: string,
  environment: NodeJS.ProcessEnv,
  args: readonly string[] = [],
): Promise<void> {
  // Jupyter refuses to run as root unless told so, which is how containers and build machines run.
  const asRoot = process.getuid?.() === 0 ? ['--allow-root'] : [];
  const jupyter = spawn('jupyter', [kind, ...asRoot, ...args, folder], {
    env: environment,
    stdio: 'inherit',
  });
  // Ctrl+C is for Jupyter, which asks back; this process ends when Jupyter does.
  const leaveToJupyter = () => undefined;
  process.on('SIGINT', leaveToJupyter);
  const stop = () => void jupyter.kill('SIGTERM');
  process.once('SIGTERM', stop);
  return new Promise((resolveClosed, reject) => {
    jupyter.on('error', reject);
    jupyter.on('exit', (code, signal) => {
      process.off('SIGINT', leaveToJupyter);
      process.off('SIGTERM', stop);
      if (code === 0 || signal !== null) resolveClosed();
      else reject(new TemperbookError('Jupyter ended with an error', { found: `exit code ${code}` }));
    });
  });
}
