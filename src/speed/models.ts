import { suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import { CAMPBELL, CAMPBELL_LIDAR } from './campbell.ts';
import { DAVEY } from './davey.ts';
import { IRMISCHER_CLARKE, IRMISCHER_CLARKE_WOMEN } from './irmischer-clarke.ts';
import { MARQUEZ_PEREZ } from './marquez-perez.ts';
import type { SpeedModel } from './model.ts';
import { NAISMITH } from './naismith.ts';
import { NAISMITH_LANGMUIR } from './naismith-langmuir.ts';
import { REES } from './rees.ts';
import { constantSpeed, SCARF } from './scarf.ts';
import { TOBLER } from './tobler.ts';

/** Every published model a task can name; the first is the default. */
export const SPEED_MODELS: readonly SpeedModel[] = [
  IRMISCHER_CLARKE,
  IRMISCHER_CLARKE_WOMEN,
  NAISMITH,
  NAISMITH_LANGMUIR,
  TOBLER,
  MARQUEZ_PEREZ,
  SCARF,
  ...CAMPBELL,
  CAMPBELL_LIDAR,
  REES,
  DAVEY,
];

/** The model that a party names, or one of its own level speed in metres per second. */
export function speedModel(named: string | { readonly metresPerSecond: number }): SpeedModel {
  if (typeof named !== 'string') return constantSpeed(named.metresPerSecond);
  const model = SPEED_MODELS.find((m) => m.name === named);
  if (model === undefined)
    throw new UserError({
      what: 'unknown speed model',
      got: `"${named}"${suggestion(
        named,
        SPEED_MODELS.map((m) => m.name),
      )}`,
      expected: SPEED_MODELS.map((m) => m.name).join(', '),
    });
  return model;
}
