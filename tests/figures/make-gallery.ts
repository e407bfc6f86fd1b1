// Writes the gallery of all figures: `npm run gallery`.
import { mkdirSync, writeFileSync } from 'node:fs';
import { gallery } from '../../viz/gallery/node-entry.ts';
import { sampleReport } from './sample-report.ts';

mkdirSync('dist', { recursive: true });
writeFileSync('dist/gallery.html', gallery(sampleReport(), sampleReport({ varied: true, trials: 200 })));
console.log('dist/gallery.html');
