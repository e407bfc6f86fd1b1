import type { Command } from 'commander';
import type { Terminal } from '../node/terminal.ts';
import { addShared } from '../options.ts';
import type { PrepareOptions } from '../run-prepare.ts';

export function addPrepare(program: Command, terminal: Terminal): void {
  const command = program
    .command('prepare')
    .description('make a terrain folder from open elevation data and map extracts')
    .argument(
      '<files...>',
      'elevation (GeoTIFF, ESRI ASCII, .hgt; any number of tiles) and map features (GeoJSON, OSM XML or PBF, tables)',
    )
    .requiredOption('--out <folder>', 'where the terrain goes')
    .option('--name <name>', 'name of the ground, in place of the name of the folder')
    .option('--box <w,s,e,n>', 'keep this part only: degrees, or metres of the coordinate system')
    .option('--around <track>', 'keep the ground round a track (GPX or GeoJSON)')
    .option('--margin <metres>', 'how far round the track', '1500')
    .option('--crs <code>', 'projected coordinate system such as EPSG:27700')
    .option('--cell <metres>', 'side of a cell; fine data is brought to 5 m unless this says otherwise')
    .option('--no-landforms', 'read no knolls, cols, spurs and hollows off the elevation')
    .option('--map-date <date>', 'when the map was made, year-month-day')
    .option('--attribution <text>', 'who is to be named for the elevation')
    .option('--licence <text>', 'licence of the data');
  addShared(command, ['language']).action(async (files: string[], options: PrepareOptions) => {
    const { runPrepare } = await import('../run-prepare.ts');
    await runPrepare(files, options, terminal);
  });
}
