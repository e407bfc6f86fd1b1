/* The parts of geodesy 2.4 that this room uses; the package carries no types. */
declare module 'geodesy/osgridref.js' {
  export default class OsGridRef {
    constructor(easting: number, northing: number);
    readonly easting: number;
    readonly northing: number;
    static parse(gridref: string): OsGridRef;
    toString(digits?: number): string;
  }
}

declare module 'geodesy/mgrs.js' {
  export default class Mgrs {
    readonly zone: number;
    static parse(gridref: string): Mgrs;
    toUtm(): Utm;
    toString(digits?: number): string;
  }
  export class Utm {
    constructor(zone: number, hemisphere: 'N' | 'S', easting: number, northing: number);
    readonly zone: number;
    readonly hemisphere: 'N' | 'S';
    readonly easting: number;
    readonly northing: number;
    toMgrs(): Mgrs;
  }
}
