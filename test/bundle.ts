import { execSync } from 'node:child_process';

/** Bundles the program before any test, so that what a test finds in dist/ is as it is written now. */
export default function bundle(): void {
  execSync('npm run --silent bundle', { stdio: 'inherit' });
}
