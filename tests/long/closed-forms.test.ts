import { describe } from 'vitest';
import { closedForms } from '../walk/closed-forms.ts';

describe.each([1, 2, 3, 4, 5])('seed %i', (seed) => closedForms(seed, 40_000));
