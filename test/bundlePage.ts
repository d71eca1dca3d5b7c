import { execSync } from 'node:child_process';

/** Bundles the page's scripts before any test, so that a page in a test runs the scripts as they are written now. */
export default function bundlePage(): void {
  execSync('npm run --silent build:page', { stdio: 'inherit' });
}
