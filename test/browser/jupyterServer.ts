import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import path from 'node:path';

/** How long Jupyter may take to answer, ms. */
const START_TIMEOUT_MS = 60_000;

export interface JupyterServer {
  /** Address of a notebook in the classic front end. */
  urlOf(notebook: string): string;
  stop(): Promise<void>;
}

/**
 * Opens a folder in Jupyter by the kit's own command, as `npm run jupyter` does, on a free port and without a
 * browser of its own. `home` stands in for the user's home.
 */
export async function startJupyter(folder: string, home: string): Promise<JupyterServer> {
  const port = await freePort();
  const token = 'for-this-test-only';
  const command = path.resolve('dist/cli/main.js');
  const args = [
    'jupyter',
    folder,
    '--no-browser',
    `--port=${port}`,
    '--port-retries=0',
    `--NotebookApp.token=${token}`,
  ];
  const child = spawn(process.execPath, [command, ...args], {
    env: { ...process.env, HOME: home },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (text) => (said += text));
  await answering(`http://localhost:${port}/api/status?token=${token}`, child, () => said);
  return {
    urlOf: (notebook) => `http://localhost:${port}/notebooks/${encodeURIComponent(notebook)}?token=${token}`,
    stop: async () => {
      if (child.exitCode !== null) return;
      child.kill('SIGTERM');
      await once(child, 'exit');
    },
  };
}

async function answering(url: string, child: ChildProcess, said: () => string): Promise<void> {
  const deadline = Date.now() + START_TIMEOUT_MS;
  while (Date.now() < deadline && child.exitCode === null) {
    const response = await fetch(url).catch(() => undefined);
    if (response?.ok) return;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  child.kill('SIGTERM');
  throw new Error(`Jupyter did not start:\n${said()}`);
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });
}
