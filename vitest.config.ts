import { configDefaults, defineConfig } from 'vitest/config';

/** What takes long has `.slow` in its name, and `--mode slow` runs nothing else: npm run test:slow. */
const SLOW = 'test/**/*.slow.test.ts';

export default defineConfig(({ mode }) => ({
  test: {
    include: [mode === 'slow' ? SLOW : 'test/**/*.test.ts'],
    exclude: mode === 'slow' ? configDefaults.exclude : [...configDefaults.exclude, SLOW],
    globalSetup: 'test/bundle.ts',
    testTimeout: mode === 'slow' ? 300_000 : 60_000,
    hookTimeout: 60_000,
    // Nothing here changes a module's state, so that all files of a process may share what was loaded: half the time.
    pool: 'forks',
    isolate: false,
  },
}));
