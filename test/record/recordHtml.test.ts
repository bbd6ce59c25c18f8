import { inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { recordHtml } from '../../lib/record';
import { html, trusted } from '../../lib/record/html/html';
import { sampleFault, sampleLog, sampleVerdict } from '../figure/samples';
import { fc } from '../setup/fc';
import { unwrapped } from '../setup/unwrapped';
import { sampleParts, sampleRecord } from './samples';

/** What a reader sees: tags, style and scripts away, entities resolved. */
function visible(page: string): string {
  return unwrapped(page)
    .replace(/<(script|style)\b[^>]*>[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&amp;/g, '&')
    .replace(/[\s\u00a0]+/g, ' ');
}

/** The page without its packed plotly, which is long and has no texts of ours. */
const bare = (page: string) =>
  page.replace(/<script type="application\/octet-stream"[^>]*>[^<]*<\/script>/, '');

describe('recordHtml', () => {
  const page = unwrapped(recordHtml(sampleRecord()));
  const text = visible(page);

  it('is the same bytes for the same record', () => {
    expect(unwrapped(recordHtml(sampleRecord()))).toBe(page);
  });

  it('says the verdict first, then why, then shows the trace', () => {
    const order = [
      '<h1>',
      'Measure first',
      'TC1 decides',
      'the band reaches down to 85 %',
      'Kept from a chance of 95 % on',
      '<figure class="plot"',
      'What to do now',
      'Decision</h2>',
      'name and signature',
      'Annex',
      'Each probe',
    ].map((part) => page.indexOf(part, page.indexOf('<main>')));
    expect(order).not.toContain(-1);
    expect([...order].sort((a, b) => a - b)).toEqual(order);
  });

  it('holds all that a decision rests on', () => {
    const parts = sampleParts();
    const said = [
      ...Object.values(parts.job!).map(String),
      parts.log!.source.sha256,
      '3001 read = 1962 used whole + 1038 used in part + 1 not used',
      ...parts.log!.notes,
      'open circuit',
      'The probe let go',
      'missing field',
      ...parts.verdict.cautions,
      ...parts.verdict.assumptions.flatMap(({ name, value, source }) => [name, value, source]),
      'recalled, source not opened',
      'common practice, no source',
      ...parts.verdict.channels.flatMap(({ sentence, settle, budget, doubts }) => [
        sentence,
        budget.sentence,
        ...settle,
        ...doubts.map(({ of }) => of),
      ]),
      ...parts.verdict.notJudged.flatMap(({ name, because }) => [name, because]),
      ...parts.options!.flatMap(({ name, remark }) => [name, remark!]),
      parts.decision!.condition!,
      parts.decision!.reason,
      'not a certificate',
      'licensed engineer',
      'temperbook 0.',
      'Decided by, name and signature',
      '91 % (85 to 95 %)',
      '319 °C (606 °F)',
    ];
    for (const sentence of said) expect(text).toContain(sentence.replace(/\s+/g, ' '));
  });

  it('asks for nothing from outside: no address but the namespace of SVG', () => {
    const addresses = bare(page).match(/(?:https?:)?\/\/[\w.-]+\.\w+[^\s"'<)]*/g) ?? [];
    expect(new Set(addresses)).toEqual(new Set(['http://www.w3.org/2000/svg']));
    // A picture shown twice is named by its place in the page.
    expect(bare(page)).not.toMatch(/\s(?:src|href)=(?!"#)/);
    expect(page).toContain("default-src 'none'");
  });

  it('allows exactly the scripts it holds, by hash, and none when it has no figure', () => {
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(page)![1]!;
    expect(policy).toMatch(/script-src 'sha256-[\w+/=]{44}' 'sha256-[\w+/=]{44}';/);
    const plain = recordHtml(sampleRecord({ figures: [] }));
    expect(plain).toContain("script-src 'none'");
    expect(plain).not.toContain('<script');
    expect(plain.length).toBeLessThan(60_000);
  });

  it('says so when a part is accepted against the verdict', () => {
    const decision = { disposition: 'accept', reason: 'Customer agrees.' } as const;
    expect(visible(recordHtml(sampleRecord({ decision })))).toContain('accepted although the verdict is');
    const sample = sampleVerdict();
    const action = { ...sample.action, word: 'kept', chance: 0.97 } as const;
    const kept = { ...sample, action, verdict: 'kept', chanceKept: 0.97 } as const;
    expect(visible(recordHtml(sampleRecord({ decision, verdict: kept })))).not.toContain('although');
  });

  it('stays short with many faults, and counts them all', () => {
    const log = sampleLog();
    const faults = Array.from({ length: 200_000 }, (_, i) =>
      sampleFault({ kind: 'spike', fromS: i / 10, toS: i / 10, column: 'TC1' }),
    );
    const many = { ...log, channels: [{ ...log.channels[0]!, faults }, ...log.channels.slice(1)] };
    const noisy = recordHtml(sampleRecord({ log: many }));
    expect(visible(noisy)).toContain('TC1 spike 200000 ');
    expect(noisy.length).toBeLessThan(page.length * 1.1);
  });

  it('keeps every hostile text inert, wherever it comes from', () => {
    const evil = `</script></style></title><img src=x onerror=bang()><script>bang()</script>'"&\u2028\u2029`;
    const log = sampleLog();
    const verdict = sampleVerdict(log);
    const channels = log.channels.map((channel) => ({ ...channel, name: `${channel.name}${evil}` }));
    const hostile = recordHtml(
      sampleRecord({
        log: {
          ...log,
          source: { ...log.source, name: evil },
          channels: channels.map((c) => ({
            ...c,
            faults: c.faults.map((f) => ({ ...f, reason: evil, value: evil })),
          })),
          leftAside: [{ name: evil, unit: evil, why: evil }],
          notes: [evil],
        },
        verdict: {
          ...verdict,
          alloy: evil,
          temper: evil,
          sentence: evil,
          action: {
            ...verdict.action,
            headline: evil,
            reason: evil,
            now: [evil, evil],
            asWelded: [{ name: evil, proofMPa: 92, sentence: evil }],
            ways: verdict.action.ways.map((way) => ({
              ...way,
              name: evil,
              remark: evil,
              askFirst: [evil],
              forbiddenBy: [evil],
            })),
          },
          channels: verdict.channels.map((c, i) => ({
            ...c,
            name: channels[i]!.name,
            sentence: evil,
            settle: [evil],
          })),
          assumptions: [{ name: evil, value: evil, source: evil, known: 'seen' }],
          cautions: [evil],
        },
        job: { part: evil, operator: evil },
        options: [{ name: evil, yieldKeptFraction: verdict.channels[0]!.yieldKeptFraction, remark: evil }],
        decision: { disposition: 'reject', reason: evil },
        signOff: [{ role: evil, name: evil, date: evil }],
        versions: { [evil]: evil },
        writtenAt: evil,
      }),
    );
    expect(hostile).not.toMatch(/<img|<script>bang/);
    expect(hostile.match(/<script/g)).toHaveLength(3);
    expect(hostile.match(/<\/script/g)).toHaveLength(3);
    expect(hostile.match(/<\/style>/g)).toHaveLength(1);
    expect(hostile.match(/<\/title>/g)!.length).toBe(3);
    const packed = /<script type="application\/octet-stream">([\w+/=]*)<\/script>/.exec(hostile)![1]!;
    const json = inflateRawSync(Buffer.from(packed, 'base64')).toString();
    expect(JSON.parse(json).data.length).toBeGreaterThan(0);
    expect(visible(hostile)).toContain(`'"&`);
  });
});

describe('html', () => {
  it('escapes any text between tags and inside attributes', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const page = html`<p title="${text}">${text}</p>`.text;
        expect(page.replace(/^<p title="|">|<\/p>$/g, '')).not.toMatch(/[<>"']/);
      }),
      { seed: 3 },
    );
  });

  it('joins lists, leaves out what is not there, and trusts only what says so', () => {
    expect(html`${['a', trusted('<b>'), undefined, false, 3]}`.text).toBe('a<b>3');
  });
});
