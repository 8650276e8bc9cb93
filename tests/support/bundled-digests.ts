import { build } from 'vite';

/** The engine and its digests as one script for a browser, where they are `engine`, or as one module. */
export async function bundledDigests(format: 'iife' | 'es'): Promise<string> {
  const result = await build({
    configFile: false,
    logLevel: 'silent',
    build: {
      write: false,
      minify: false,
      lib: { entry: 'tests/support/campaign-digest.ts', formats: [format], name: 'engine' },
    },
  });
  const outputs = Array.isArray(result) ? result : 'output' in result ? [result] : [];
  const chunk = outputs.flatMap(({ output }) => output).find(({ type }) => type === 'chunk');
  if (chunk?.type !== 'chunk') throw new Error('The bundle is empty.');
  return chunk.code;
}
