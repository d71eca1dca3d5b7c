/** A module of the built program, as users run it, typed by its source: built<typeof import('...')>('lamp/x'). */
export function built<Module>(path: string): Promise<Module> {
  return import(new URL(`../../dist/${path}.js`, import.meta.url).href) as Promise<Module>;
}
