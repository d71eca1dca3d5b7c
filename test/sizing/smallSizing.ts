import { join } from 'node:path';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { type Sizing, type SizingWishes, sizeScenario } from '../../sim/sizing/sizeScenario.ts';
import { choiceGarden } from './choiceGarden.ts';

/**
 * The answers of a small garden with a bright and a dim spot, under light that was logged on the cells.
 *
 * in: wishes; choices, as YAML lines; cell, another one in place of the lamp's, as YAML
 */
export async function smallSizing(
  wishes: SizingWishes = {},
  choices?: string,
  cell?: string,
): Promise<Sizing> {
  const garden = choiceGarden(choices, cell);
  try {
    const scenario = loadScenario(join(garden.folder, 'small.yaml'), 'small.yaml');
    return await sizeScenario(scenario, undefined, wishes, { threads: 0 });
  } finally {
    garden.remove();
  }
}
