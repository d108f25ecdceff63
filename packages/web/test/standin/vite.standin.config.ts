import { fileURLToPath } from 'node:url';
import { mergeConfig, type Plugin } from 'vite';
import base from '../../vite.config';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const standin = (): Plugin => ({
  name: 'standin',
  enforce: 'pre',
  resolveId(source, importer) {
    if (source.endsWith('/usecases') && importer?.includes('/src/') === true) return here('./usecases.ts');
    return null;
  },
});

export default mergeConfig(base, { plugins: [standin()], worker: { plugins: () => [standin()] } });
