import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { sayingAnswers } from '../../../lib/validation';

const answers = sayingAnswers();
const word = (id: string) => answers.find((one) => one.id === id)!.word;

describe('sayings of the trade', () => {
  it('every one has an answer with its reason, its kind of source, and no address', () => {
    expect(answers.length).toBeGreaterThanOrEqual(30);
    for (const { because, sources, tried, word: given } of answers) {
      expect(because.length).toBeGreaterThan(0);
      expect(sources.length).toBeGreaterThan(0);
      expect(tried.length > 0).toBe(given !== 'nobody knows');
    }
    expect(readFileSync('data/models/sayings.json', 'utf8')).not.toMatch(/https?:|www\.|\.com/);
  });

  // Measured: 6061-T6 extrusions below their minimum only after 16 h at 390 °F or 4 h at 425 °F; MIL-HDBK-5J fig. 3.6.2.2.1(d).
  it('agree with what was measured', () => {
    expect(word('series-390')).toBe('true');
    expect(word('650-anneal')).toBe('true');
    expect(word('350-ten')).toBe('false');
    expect(word('never-300')).toBe('false');
    expect(word('weld-O')).toBe('false');
    expect(word('rest-back')).toBe('false');
    expect(word('reage-little')).toBe('true if');
    expect(word('straighten-700')).toBe('false');
  });
  // Common practice, no source: the rule is no cliff, time decides.
  it('the 440 °F rule is true only with its time', () => expect(word('rule-440')).toBe('true if'));
  it('what no model here can tell, nobody knows', () => expect(word('bearing-torch')).toBe('nobody knows'));
});
