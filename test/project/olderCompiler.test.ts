import path from 'node:path';
import ts from '@tslab/typescript-for-tslab';
import { describe, expect, it } from 'vitest';

describe('the types of the built package', () => {
  it('are readable by the compiler that checks notebook cells, which is older than ours', () => {
    const dist = path.resolve('dist');
    const program = ts.createProgram([path.join(dist, 'index.d.ts')], {
      strict: true,
      noEmit: true,
      target: ts.ScriptTarget.ES2022,
      module: ts.ModuleKind.CommonJS,
      moduleResolution: ts.ModuleResolutionKind.Node10,
      esModuleInterop: true,
      types: ['node'],
    });
    const own = program.getSourceFiles().filter(({ fileName }) => path.resolve(fileName).startsWith(dist));
    const faults = own
      .flatMap((file) => [...program.getSyntacticDiagnostics(file), ...program.getSemanticDiagnostics(file)])
      .map(
        ({ file, messageText }) => `${file?.fileName}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`,
      );
    expect(ts.version).toBe('5.0.4');
    expect(own.length).toBeGreaterThan(20);
    expect(faults).toEqual([]);
  });
});
