import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { TemperbookError } from '../../quantity';
import { WATCH_PAGE, WATCH_POLICY } from './watchPage';
import type { WatchState } from './watchState';

/** A page on this machine that shows what is being watched. */
export interface WatchServer {
  readonly url: string;
  show(state: WatchState): void;
  /** Says the last word to every page and closes. */
  end(lastWord: string): Promise<void>;
}

const HERE = '127.0.0.1';

/**
 * Serves the page on 127.0.0.1 and nowhere else; port 0 takes any that is free. Asked under another name than this machine's
 * own it refuses, so that no page from elsewhere can read it through a name it owns.
 * @throws TemperbookError when the port is taken or not allowed.
 */
export function serveWatch(port: number): Promise<WatchServer> {
  const listeners = new Set<ServerResponse>();
  let last = '';
  let names: readonly string[] = [];
  const server = createServer((request, response) => {
    response.setHeader('Cache-Control', 'no-store');
    response.setHeader('X-Content-Type-Options', 'nosniff');
    response.setHeader('Cross-Origin-Resource-Policy', 'same-origin');
    if (!names.includes(request.headers.host ?? ''))
      return refuse(response, 403, 'Ask for this page by its own address.');
    if (request.method !== 'GET') return refuse(response, 405, 'There is nothing to change here.');
    if (request.url === '/events') return listen(request, response);
    if (request.url !== '/') return refuse(response, 404, 'There is no such page.');
    response.setHeader('Content-Type', 'text/html; charset=utf-8');
    response.setHeader('Content-Security-Policy', WATCH_POLICY);
    response.end(WATCH_PAGE);
  });

  function listen(request: IncomingMessage, response: ServerResponse): void {
    response.setHeader('Content-Type', 'text/event-stream');
    listeners.add(response);
    request.on('close', () => listeners.delete(response));
    response.write(last === '' ? '\n' : `data: ${last}\n\n`);
  }

  return new Promise((resolve, reject) => {
    server.once('error', (error) => {
      const code = 'code' in error ? error.code : '';
      reject(
        new TemperbookError('The page cannot be served at this port', {
          found: code === 'EADDRINUSE' ? `port ${port} is taken by another program` : error.message,
          remedy: 'Give another port, or 0 for any that is free',
        }),
      );
    });
    server.listen(port, HERE, () => {
      const at = server.address();
      const taken = typeof at === 'object' && at !== null ? at.port : port;
      names = [`${HERE}:${taken}`, `localhost:${taken}`];
      resolve({
        url: `http://${HERE}:${taken}/`,
        show: (state) => {
          last = JSON.stringify(state);
          for (const listener of listeners) listener.write(`data: ${last}\n\n`);
        },
        end: (lastWord) =>
          new Promise((done) => {
            for (const listener of listeners)
              listener.end(`event: end\ndata: ${JSON.stringify(lastWord)}\n\n`);
            server.close(() => done());
            server.closeIdleConnections();
          }),
      });
    });
  });
}

function refuse(response: ServerResponse, status: number, text: string): void {
  response.statusCode = status;
  response.setHeader('Content-Type', 'text/plain; charset=utf-8');
  response.end(`${text}\n`);
}
