import { writeDemo } from './make.ts';

writeDemo('terrains/demo');
