import { test } from 'vitest';
import { simulate } from '../../src/walk/simulate.ts';
import { benchParty, benchWorld, leg, plainTerrain, route, spot } from './plain-ground.ts';
import { hitsOf } from '../../src/walk/tally.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';

test('scenario 5', () => {
  const t6 = Math.tan(6*Math.PI/180);
  // fall line at 60 degrees to north heading
  const ux = Math.sin(Math.PI/3), uy = Math.cos(Math.PI/3);
  const terrain = plainTerrain(1200, 20, (e,n)=>600 - t6*(e*ux+n*uy));
  for (const level of ['novice','competent','expert'] as const) {
    const row = [];
    for (const d of [50,100,150,200,300,500]) {
      const target = spot('t','spring',[0,d],{sweepWidthMetres:30, exists:1, positionMetres:0});
      const world = benchWorld({terrain, features:[target], start:[0,0], target, party: benchParty(level)});
      const w2 = {...world, roughWander: world.roughWander.map(()=>1.2), roughPace: world.roughPace.map(()=>1.2), sidePace: world.sidePace.map(()=>1)};
      const r = route(leg('bearing',[0,0],[0,d],{toFeature:'t'}));
      const t0 = performance.now();
      const tally = simulate(w2, r, 1, 0, 20000);
      row.push((hitsOf(tally)/20000).toFixed(3));
      if (d===500) { const a = new Attempt(w2, planLegs(w2,r)); const t1=performance.now(); for(let k=0;k<20000;k++) a.run(1,k); console.log('ns/step',(performance.now()-t1)*1e6/a.stepsTaken, a.stepsTaken); }
    }
    console.log(level, row.join(' '));
  }
});
