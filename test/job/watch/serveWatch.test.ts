import { request } from 'node:http';
import { describe, expect, it } from 'vitest';
import { serveWatch, type WatchState } from '../../../lib/job';

const STATE: WatchState = {
  log: 'log.csv',
  level: 'fine',
  headline: 'Go on',
  probes: [],
  silentS: 0,
  notes: [],
};

function ask(url: string, host?: string, method = 'GET'): Promise<{ status: number; body: string }> {
  return new Promise((resolve, reject) => {
    const asked = request(url, { method, ...(host ? { headers: { host } } : {}) }, (response) => {
      let body = '';
      response.on('data', (piece) => {
        body += piece;
      });
      response.on('end', () => resolve({ status: response.statusCode!, body }));
    });
    asked.on('error', reject);
    asked.end();
  });
}

describe('the page of a watch', () => {
  it('is served under this machine’s own name alone, to be read and nothing else', async () => {
    const server = await serveWatch(0);
    expect(server.url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    const port = new URL(server.url).port;
    expect((await ask(server.url)).status).toBe(200);
    expect((await ask(server.url, `localhost:${port}`)).status).toBe(200);
    expect((await ask(server.url, 'elsewhere.example')).status).toBe(403);
    expect((await ask(`${server.url}events`, 'elsewhere.example')).status).toBe(403);
    expect((await ask(server.url, undefined, 'POST')).status).toBe(405);
    expect((await ask(`${server.url}../etc/passwd`)).status).toBe(404);
    await server.end('over');
  });

  it('tells the newest state at once, and the end', async () => {
    const server = await serveWatch(0);
    server.show(STATE);
    const events = ask(`${server.url}events`);
    await new Promise((resolve) => setTimeout(resolve, 100));
    await server.end('See the record.');
    expect((await events).body).toBe(
      `data: ${JSON.stringify(STATE)}\n\nevent: end\ndata: "See the record."\n\n`,
    );
  });

  it('says so when its port is taken', async () => {
    const server = await serveWatch(0);
    await expect(serveWatch(Number(new URL(server.url).port))).rejects.toThrow('taken by another program');
    await server.end('over');
  });
});
