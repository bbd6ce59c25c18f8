import { describe, expect, it } from 'vitest';
import { type Notebook, parseSettings } from '../../lib/notebook';
import { declaredParameters, injectParameters } from '../../lib/notebook/parameters';

const SOURCE = `// What to review
let log = '../data/demo/log.csv';
let alloy = 'A356.0';
let allowanceFraction = 0.1;
let limitC: number | undefined;
let verbose = false;
let probes: string[] = [];
const fixed = 1;
`;

function notebookWith(source: string, tags: string[] = ['parameters']): Notebook {
  const cells = [
    { cell_type: 'markdown' as const, id: 'title', metadata: {}, source: '# Title' },
    {
      cell_type: 'code' as const,
      id: 'settings',
      metadata: { tags },
      source: source.split(/(?<=\n)/),
      outputs: [],
    },
    { cell_type: 'code' as const, id: 'rest', metadata: {}, source: 'alloy;', outputs: [] },
  ];
  return { nbformat: 4, nbformat_minor: 5, metadata: {}, cells };
}

const notebook = notebookWith(SOURCE);

describe('declaredParameters', () => {
  it('lists the variables of the tagged cell with the kind of value each takes', () => {
    expect(declaredParameters(notebook).map(({ name, kind }) => [name, kind])).toEqual([
      ['log', 'text'],
      ['alloy', 'text'],
      ['allowanceFraction', 'number'],
      ['limitC', 'number'],
      ['verbose', 'yes/no'],
      ['probes', 'json'],
      ['fixed', 'number'],
    ]);
  });

  it('takes a default beginning with ./ or ../ for a path', () => {
    expect(declaredParameters(notebook).filter((p) => p.isPath)).toMatchObject([{ name: 'log' }]);
  });

  it('finds none where no cell is tagged', () => {
    expect(declaredParameters(notebookWith(SOURCE, []))).toEqual([]);
  });
});

describe('parseSettings', () => {
  const parse = (...settings: string[]) => parseSettings(notebook, settings, '/shop/job');

  it('reads each value by the kind of its parameter: an alloy called 6061 stays text', () => {
    expect(parse('alloy=6061', 'allowanceFraction=0.15', 'verbose=true', 'limitC=227')).toEqual({
      alloy: '6061',
      allowanceFraction: 0.15,
      verbose: true,
      limitC: 227,
    });
  });

  it('resolves a path against the folder where the user stands', () => {
    expect(parse('log=my.csv')).toEqual({ log: '/shop/job/my.csv' });
    expect(parse('log=/elsewhere/my.csv')).toEqual({ log: '/elsewhere/my.csv' });
  });

  it('keeps an equals sign in the value', () => {
    expect(parse('alloy=a=b')).toEqual({ alloy: 'a=b' });
  });

  it('reads JSON for lists', () => {
    expect(parse('probes=["TC1","TC2"]')).toEqual({ probes: ['TC1', 'TC2'] });
  });

  it.each([
    ['aloy=6061', 'the notebook has no parameter "aloy". Expected: one of log, alloy, allowanceFraction'],
    ['alloy', '"alloy" sets nothing. Expected: name=value'],
    [
      'allowanceFraction=0,15',
      'parameter "allowanceFraction" cannot take this value. Found: "0,15". Expected: a number such as 0.15',
    ],
    ['allowanceFraction=', 'Expected: a number'],
    ['verbose=yes', 'Expected: true or false'],
    ['probes=TC1', 'Expected: a value in JSON'],
  ])('refuses %s in plain words', (setting, message) => {
    expect(() => parse(setting)).toThrow(message);
  });
});

describe('injectParameters', () => {
  it('puts a cell tagged injected-parameters right after the tagged one', () => {
    const { cells } = injectParameters(notebook, { alloy: 'it\'s "6061"', probes: [1] });
    expect(cells.map((cell) => cell.id)).toEqual(['title', 'settings', 'injected-parameters', 'rest']);
    expect(cells[2]).toMatchObject({
      metadata: { tags: ['injected-parameters'] },
      source: '{\n  alloy = "it\'s \\"6061\\"";\n  probes = [1];\n}',
    });
  });

  it('replaces a cell that an earlier run left', () => {
    const once = injectParameters(notebook, { alloy: '6061' });
    const twice = injectParameters(once, { alloy: '6063' });
    expect(twice.cells).toHaveLength(once.cells.length);
    expect(twice.cells[2]?.source).toContain('6063');
  });

  it('changes nothing when nothing is set', () => {
    expect(injectParameters(notebook, {})).toBe(notebook);
  });

  it.each([
    [{ colour: 'red' }, 'no parameter "colour"'],
    [{ alloy: 6061 }, 'Expected: text'],
    [{ limitC: Number.NaN }, 'Expected: a number'],
    [{ fixed: 2 }, 'declares it with const'],
  ])('refuses %o', (values, message) => {
    expect(() => injectParameters(notebook, values)).toThrow(message);
  });

  it('says so when the notebook takes no parameters', () => {
    expect(() => injectParameters(notebookWith(SOURCE, []), { alloy: '6061' })).toThrow(
      'None of its cells is tagged "parameters"',
    );
  });
});
