import type { Point } from '../math/plane.ts';
import { toLonLat } from '../terrain/projection.ts';
import type { WrittenAbout, WrittenRoute } from './written.ts';

/** Routes as GeoJSON (RFC 7946: longitude, latitude of WGS 84): one line per route, then one per leg, told apart by `part`. */
export function geojsonOf(routes: readonly WrittenRoute[], about: WrittenAbout): string {
  const features = routes.flatMap((route) => [
    {
      type: 'Feature',
      properties: {
        part: 'route',
        letter: route.letter,
        name: route.name,
        strategy: route.strategy,
        distanceMetres: route.distanceMetres,
        climbMetres: route.climbMetres,
        descentMetres: route.descentMetres,
      },
      geometry: line(
        route.legs.flatMap((leg, i) => (i === 0 ? leg.path : leg.path.slice(1))),
        about.crs,
      ),
    },
    ...route.legs.map((leg, i) => {
      const { path, ...figures } = leg;
      return {
        type: 'Feature',
        properties: { part: 'leg', letter: route.letter, leg: i + 1, ...plain(figures) },
        geometry: line(path, about.crs),
      };
    }),
  ]);
  const { title, creator, remarks } = about;
  return `${JSON.stringify({ type: 'FeatureCollection', title, creator, remarks, features }, null, 1)}\n`;
}

/** Only what a leg hands out, whatever else the object carries. */
function plain(leg: Omit<WrittenRoute['legs'][number], 'path'>) {
  return {
    technique: leg.technique,
    from: leg.from,
    to: leg.to,
    says: leg.says,
    gridBearingDegrees: leg.gridBearingDegrees,
    magneticBearingDegrees: leg.magneticBearingDegrees,
    distanceMetres: leg.distanceMetres,
    climbMetres: leg.climbMetres,
    descentMetres: leg.descentMetres,
    doublePaces: leg.doublePaces,
    minutes: leg.minutes,
  };
}

function line(points: readonly Point[], crs: string) {
  return {
    type: 'LineString',
    coordinates: points.map((p) => toLonLat(crs, p).map((degrees) => Number(degrees.toFixed(7)))),
  };
}
